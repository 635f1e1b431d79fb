// What the example machines are made of. Data of invented plants.

export const fixed = { area: 1.5, class: 5 }
export const sensor = { area: 0.75, class: 5 }
export const moving = { area: 1, class: 5 }
export const breaker = (rating: number) => ({ kind: 'breaker', rating, curve: 'C' })

type Cable = 'fixed' | 'sensor' | 'moving'
const CONDUCTORS = { fixed, sensor, moving }
/** Where it begins (0 the terminals, n the end of run n), metres, which cable. */
type Run = readonly [from: number, metres: number, cable: Cable]
/** At the end of which run, letter of its id, what it is, kind, watts. */
type Load = readonly [at: number, letter: string, name: string, kind: 'coil' | 'electronic' | 'lamp' | 'motor', watts: number]

/** A branch in one line: ids are made of its number and the place in the list. */
export const branchOf = (n: number, name: string, protection: object, runs: readonly Run[], loads: readonly Load[]) => {
  const end = (of: number): string => (of === 0 ? 'terminals' : `${n}-J${of}`)
  return {
    id: `B${n}`,
    name,
    protection,
    wiring: runs.map(([from, length, cable], i) => ({
      id: `${n}-W${i + 1}`,
      from: end(from),
      to: end(i + 1),
      length,
      conductor: CONDUCTORS[cable],
      ...(cable === 'moving' ? { moving: true } : {}),
    })),
    loads: loads.map(([at, letter, what, kind, watts], i) => {
      const id = `${letter}${n}${i + 1}`
      return { id, name: `${what} ${id}`, at: end(at), kind, watts, pluggable: true }
    }),
  }
}
