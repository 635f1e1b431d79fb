import type { Hunt } from './useSession.ts'

/** What went wrong with the last answer, and a reading that fits no single fault. */
export const Notice = ({ hunt }: { hunt: Hunt }) => (
  <>
    {hunt.error && (
      <p role="alert" class="problem">
        {hunt.error}
      </p>
    )}
    {hunt.session.fitsNothing && (
      <p role="status" class="problem">
        The readings fit no single fault. Take the last one again, or two faults are present.
      </p>
    )}
  </>
)
