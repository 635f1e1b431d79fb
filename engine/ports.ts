// A branch with a short circuit as the bus sees it: one port for each place.
import { branchAlone, putFault } from './circuit.ts'
import { gather, type Port } from './ladder.ts'
import { IN_LOAD, type Places, TO_EARTH } from './place.ts'
import type { Plant, PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'

/** Ports at the terminals of a branch, one a place: for readings that see it from outside. Kept per belief's plant and state. */
const portCache = new WeakMap<Places, Map<string, Port[]>>()
export const portsOf = (plant: Plant, b: PlantBranch, places: Places, p: Positions): readonly Port[] => {
  const key = JSON.stringify([p.unplugged.filter(u => u.startsWith(`${b.id}/`)), p.openedRuns.filter(u => u.startsWith(`${b.id}/`))])
  const known = portCache.get(places) ?? new Map<string, Port[]>()
  portCache.set(places, known)
  const found = known.get(key)
  if (found !== undefined) return found
  const l = branchAlone(b, p)
  const base = 2
  const ports: Port[] = []
  const fresh = {
    across: Float64Array.from(l.across),
    plusEarth: Float64Array.from(l.plusEarth),
    plusOhm: Float64Array.from(l.plusOhm),
    zeroOhm: Float64Array.from(l.zeroOhm),
  }
  for (let j = 0; j < places.count; j++) {
    const item = places.item[j] as number
    const inLoad = places.kind[j] === IN_LOAD
    const load = inLoad ? b.loads[item]?.load.id : undefined
    const run = inLoad ? undefined : b.wiring.runs[item]?.run.id
    putFault(
      l,
      plant,
      b,
      base,
      {
        kind: inLoad ? 'load-short' : places.kind[j] === TO_EARTH ? 'short-to-earth' : 'short-to-zero',
        branch: b.id,
        ...(load === undefined ? {} : { load }),
        ...(run === undefined ? {} : { run }),
        at: places.at[j] as number,
        ohm: places.ohm[j] as number,
      },
      p,
    )
    ports.push(gather(l))
    l.across.set(fresh.across)
    l.plusEarth.set(fresh.plusEarth)
    l.plusOhm.set(fresh.plusOhm)
    l.zeroOhm.set(fresh.zeroOhm)
  }
  known.set(key, ports)
  return ports
}

/** Ω between bus plus and bus 0 V of a port, with the bond's path to earth side by side. */
const BOND = 50
export const ohmOf = (port: Port, others: number, bonded: boolean): number => {
  const g = port.across + others
  const gz = port.zeroEarth + (bonded ? BOND : 1e-11)
  const gp = port.plusEarth + 1e-11
  return (gz + gp) / (g * (gp + gz) + gp * gz)
}
