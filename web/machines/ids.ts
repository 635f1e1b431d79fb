// Ids that nobody has to think up. They count on from what is there, so that no point of the machine gets the name of another.
import type { Branch, Machine } from '../../engine/machine.ts'

const firstFree = (name: (n: number) => string, taken: ReadonlySet<string>): string => {
  let n = 1
  while (taken.has(name(n))) n++
  return name(n)
}

/** What the ids of a branch's parts begin with: 'B3' gives '3-'. */
const prefixOf = (branch: string): string => `${branch.replace(/^B(?=\d)/, '')}-`.slice(0, 50)

/** Every name that stands after the slash in a point's name. */
export const pointsOf = ({ branches }: Pick<Machine, 'branches'>): ReadonlySet<string> =>
  new Set(branches.flatMap(({ wiring = [] }) => wiring.flatMap(({ id, from, to }) => [id, from, to])))

export const branchIdFor = (branches: readonly Branch[]): string => firstFree(n => `B${n}`, new Set(branches.map(({ id }) => id)))
export const runIdFor = (branch: string, points: ReadonlySet<string>): string => firstFree(n => `${prefixOf(branch)}W${n}`, points)
export const junctionIdFor = (branch: string, points: ReadonlySet<string>): string => firstFree(n => `${prefixOf(branch)}J${n}`, points)
export const loadIdFor = (branch: string, loads: ReadonlySet<string>): string => firstFree(n => `${prefixOf(branch)}L${n}`, loads)

/** From a machine's name: small letters and digits; unlike all others on the phone. */
export const machineIdFor = (name: string, others: readonly string[]): string => {
  const plain = name.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
  const slug =
    plain
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')
      .slice(0, 40) || 'machine'
  const taken = new Set(others)
  return taken.has(slug) || slug in {} ? firstFree(n => `${slug}-${n + 1}`, taken) : slug
}
