import { whole } from './whole.ts'

/** Names and values, one pair a line; a value that is missing or empty takes its name along. */
export const Pairs = ({ rows }: { rows: readonly (readonly [name: string, value: string | undefined])[] }) => (
  <dl>
    {rows.map(
      ([name, value]) =>
        value && (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{whole(value)}</dd>
          </div>
        ),
    )}
  </dl>
)
