// Machines of every form that a file may have, for properties.
import fc from 'fast-check'
import type { Branch, Machine } from '../../engine/machine.ts'

const maybe = <T extends object>(shape: { [K in keyof T]: fc.Arbitrary<T[K]> }, ...needed: (keyof T)[]): fc.Arbitrary<T> =>
  fc.record(shape, { requiredKeys: needed }) as fc.Arbitrary<T>
const number = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true }).map(x => Number(x.toPrecision(4)))
/** Names as people write them, those included that a spreadsheet takes for a formula; no spaces at the ends, which nobody sees. */
const name = fc
  .oneof(
    fc.string({ unit: 'grapheme', maxLength: 20 }),
    fc.constantFrom('valve "left"', 'a;b,c', '=A1+B2-K3', '-X4', 'łódź Ω', '1,5', '@home'),
  )
  .map(text => text.replace(/[\p{C}\t\r\n]/gu, '').replace(/^['"\s]+|\s+$/gu, ''))
  .filter(text => text !== '')
const conductor = fc.oneof(
  maybe({ area: fc.constantFrom(0.5, 0.75, 1.5, 2.5), class: fc.constantFrom(1, 2, 5) }, 'area'),
  maybe({ awg: fc.integer({ min: 10, max: 24 }), stranded: fc.boolean() }, 'awg'),
)
const protection = maybe(
  { kind: fc.constantFrom('breaker', 'fuse', 'electronic', 'none'), rating: number(0.5, 20), curve: fc.constantFrom('B', 'C', 'D', 'Z') },
  'kind',
)
const branch = (n: number): fc.Arbitrary<Branch> => {
  const tree = fc
    .array(
      fc.record({
        parent: fc.nat(),
        more: maybe({ conductor, moving: fc.boolean(), temperature: number(-20, 60) }),
        length: number(0.1, 60),
      }),
      { minLength: 1, maxLength: 4 },
    )
    .map(all =>
      all.map(({ parent, more, length }, i) => ({
        id: `${n}-W${i + 1}`,
        from: i === 0 ? 'terminals' : `${n}-J${1 + (parent % i)}`,
        to: `${n}-J${i + 1}`,
        length,
        ...more,
      })),
    )
  const loads = fc.array(
    maybe({ kind: fc.constantFrom('coil', 'electronic', 'lamp', 'motor'), name, watts: number(0.1, 200), pluggable: fc.boolean() }, 'kind'),
    { minLength: 1, maxLength: 3 },
  )
  const whole = maybe({ id: fc.constant(`B${n}`), name, protection, wiring: tree, loads }, 'id')
  return whole.map(({ loads, ...rest }) => ({
    ...rest,
    ...(loads === undefined
      ? {}
      : { loads: loads.map((load, i) => ({ ...load, id: `-K${n}${i}`, at: rest.wiring?.[i % rest.wiring.length]?.to ?? 'terminals' })) }),
  })) as fc.Arbitrary<Branch>
}
const supply = maybe({
  ratedVoltage: number(20, 28),
  ratedCurrent: number(1, 40),
  zeroVoltBonded: fc.boolean(),
  limit: maybe({ mode: fc.constantFrom('constant-current', 'hiccup'), current: number(1, 50) }, 'mode'),
})

/** `plain`: nothing that a table cannot say, so no supply. */
export const anyMachine = (plain: boolean): fc.Arbitrary<Machine> =>
  maybe(
    {
      format: fc.constant('ohmward.machine'),
      version: fc.constant(1),
      id: fc.constantFrom('press-4', 'M 7', '-A1'),
      name,
      place: name,
      supply: plain ? fc.constant({}) : supply,
      branches: fc.integer({ min: 1, max: 24 }).chain(count => fc.tuple(...Array.from({ length: count }, (_, i) => branch(i + 1)))),
    },
    'format',
    'version',
    'id',
    'name',
    'supply',
    'branches',
  ) as fc.Arbitrary<Machine>
