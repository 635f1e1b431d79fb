// Every drawing in every state that a step can put it in, one below the other on a page of its own: a session meets a few of them.
import type { ComponentChild } from 'preact'
import { render } from 'preact'
import { demo } from '../../content/demo.ts'
import { sorter } from '../../content/demoSorter.ts'
import type { Language } from '../../content/languages.ts'
import { readMachine } from '../../engine/check.ts'
import type { Branch, Machine } from '../../engine/machine.ts'
import { Band, type PowerWord } from '../../web/drawing/band.tsx'
import { CABINET, Cabinet, type CabinetProps, FED } from '../../web/drawing/cabinet.tsx'
import { GROUP, Group } from '../../web/drawing/group.tsx'
import { CableStretch } from '../../web/drawing/stretch.tsx'
import { Strip, shortIds } from '../../web/drawing/strip.tsx'
import { SUPPLY, SupplyDrawing } from '../../web/drawing/supply.tsx'
import { Tips } from '../../web/drawing/tips.tsx'
import { TREE, Tree, type TreeProps } from '../../web/drawing/tree.tsx'
import { setLanguage, words } from '../../web/words.ts'

const told = (json: unknown): Machine => {
  const read = readMachine(json)
  if (!read.ok) throw new Error(read.message)
  return read.value
}
const names = (count: number, name: (i: number) => string) => Array.from({ length: count }, (_, i) => name(i + 1))
/** Rows of a cabinet: few and many, short names and long ones. */
const ROWS = [names(3, i => `B${i}`), names(12, i => `B${i}`), names(24, i => `F${100 + i}`), names(5, i => `-Q2${i}.1A`)]

const cabinets = (): Record<string, CabinetProps> => {
  const all: Record<string, CabinetProps> = {}
  for (const branches of ROWS) {
    const working = branches[Math.floor(branches.length / 2)]
    const other = branches.find(b => b !== working)
    const base = {
      alt: '',
      branches,
      devices: { [working ?? '']: 'open' } as const,
      fuses: [branches[0] ?? ''],
      bus: 'joined',
      bond: 'joined',
    } as const
    const read = (mode: 'volt' | 'ohm', red: string, black: string) => ({ ...base, working, mode, red, black })
    const states: Record<string, Omit<CabinetProps, 'height'>> = {
      'volts at its terminals': read('volt', `${working}.plus`, `${working}.zero`),
      'ohms at its terminals': read('ohm', `${working}.plus`, `${working}.zero`),
      'ohms to earth': read('ohm', `${working}.plus`, 'earth'),
      'ohms of 0 V to earth': read('ohm', `${working}.zero`, 'earth'),
      'volts from one to another': read('volt', `${working}.plus`, `${other}.plus`),
      'volts of another from one': read('volt', `${other}.plus`, `${working}.plus`),
      'volts of 0 V from one to another': read('volt', `${working}.zero`, `${other}.zero`),
      'volts across the device': read('volt', 'bus.plus', `${working}.plus`),
      'volts to the 0 V bus': read('volt', `${working}.plus`, 'bus.zero'),
      'volts at the supply': { ...read('volt', 'supply.plus', 'supply.zero'), working: undefined },
      'volts from supply to bus': { ...read('volt', 'supply.plus', 'bus.plus'), working: undefined },
      'volts of the bus to earth': { ...read('volt', 'bus.plus', 'earth'), working: undefined },
      'volts of 0 V to earth': { ...read('volt', 'bus.zero', 'earth'), working: undefined },
      clamp: { ...base, working, mode: 'amp', clamp: true },
      'amperes fed': { ...base, working, mode: 'amp', source: 'zero' },
      'amperes fed into earth': { ...base, working, mode: 'amp', source: 'earth' },
      'feed it': { ...base, working, source: 'zero' },
      'feed it into earth': { ...base, working, source: 'earth' },
      device: { ...base, working, ring: 'device' },
      'device, cropped': { ...base, working, ring: 'device', crop: true },
      'bus opened': { ...base, bus: 'opened', ring: 'bus' },
      'bond opened': { ...base, bond: 'opened', ring: 'bond' },
      'three readings': { ...base, three: true },
    }
    for (const [name, props] of Object.entries(states))
      for (const height of props.crop ? [CABINET.crop] : props.source && props.mode ? [FED, CABINET.most] : [CABINET.least, CABINET.most])
        all[`${name}, ${working} of ${branches.length}, ${height}`] = { ...props, height }
  }
  return all
}

const treesOf = (branch: Branch): Record<string, Omit<TreeProps, 'alt' | 'height'>> => {
  const all: Record<string, Omit<TreeProps, 'alt' | 'height'>> = {}
  for (const run of branch.wiring ?? []) {
    const { length, id, to } = run
    all[`ohms at ${to}`] = { branch, probe: { node: to, red: 'plus', black: 'zero' } }
    all[`one probe at ${to}`] = { branch, probe: { node: to, red: 'plus' } }
    all[`ohms into ${id}`] = { branch, openedRuns: [id], probe: { node: id, red: 'plus', black: 'zero' } }
    all[`open ${id}`] = { branch, openedRuns: [id], ringRun: id }
    for (const [low, best, high] of [
      [0, 0.1, 0.4],
      [0.3, 0.5, 0.7],
      [0.6, 0.9, 1],
    ] as const)
      all[`found ${best} along ${id}`] = {
        branch,
        mark: { run: id, along: { low: low * length, best: best * length, high: high * length } },
      }
    all[`found somewhere on ${id}`] = { branch, mark: { run: id } }
  }
  for (const load of branch.loads ?? []) {
    all[`unplug ${load.id}`] = { branch, ringLoad: load.id, unplugged: [load.id] }
    all[`found ${load.id}`] = { branch, mark: { load: load.id } }
  }
  return all
}

type Drawn = Record<string, (alt: string) => ComponentChild>

const buses = (): Drawn => {
  const all: Drawn = {}
  for (const branches of [...ROWS, names(40, i => `B${i}`)])
    for (const closed of [0, 1, branches.length - 1, branches.length])
      for (const mode of ['volt', 'ohm'] as const)
        for (const height of [GROUP.least, GROUP.most])
          all[`${mode} at the buses, ${closed} of ${branches.length} closed, ${height}`] = alt => (
            <Group
              alt={alt}
              names={shortIds(branches)}
              states={branches.map((_, i) => (i < closed ? 'closed' : 'open'))}
              mode={mode}
              height={height}
              words={words().drawings.closedWords(branches.length)}
            />
          )
  return all
}
const strips = (): Drawn => {
  const all: Drawn = {}
  for (const branches of [...ROWS, names(40, i => `B${i}`)])
    for (const working of [undefined, ...branches])
      all[`${branches.length} from ${branches[0]}, work at ${working}`] = alt => (
        <Strip
          alt={alt}
          working={working}
          cells={branches.map((id, i) => ({ id, p: i / branches.length, unlikely: i % 3 === 0, device: i % 2 ? 'open' : 'tripped' }))}
        />
      )
  return all
}
const supplies = (): Drawn => {
  const all: Drawn = { tips: alt => <Tips alt={alt} /> }
  for (const ring of ['switch', 'lamp', 'mains'] as const)
    for (const on of [true, false])
      for (const height of [ring === 'switch' && !on ? SUPPLY.locked : SUPPLY.least, SUPPLY.most])
        all[`${ring} ${on ? 'on' : 'off'}, ${height}`] = alt => <SupplyDrawing alt={alt} on={on} ring={ring} height={height} />
  return all
}
const trees = (): Drawn => {
  const all: Drawn = {}
  for (const branch of [told(demo), told(sorter)].flatMap(m => m.branches.filter(b => (b.wiring?.length ?? 0) > 3)))
    for (const [name, props] of Object.entries(treesOf(branch)))
      for (const height of [TREE.least, TREE.most])
        all[`${branch.id} of ${branch.wiring?.length}, ${name}, ${height}`] = alt => <Tree {...props} alt={alt} height={height} />
  return all
}
const PLACES = [
  { low: 0, best: 0.2, high: 2 },
  { low: 3, best: 9.7, high: 12 },
  { low: 28, best: 30, high: 30 },
]
const cables = (): Drawn =>
  Object.fromEntries(
    PLACES.map(place => [
      `fault at ${place.best}`,
      (alt: string) => <CableStretch alt={alt} length={30} near="B3" far="3-J4" place={place} taps={[10, 20]} />,
    ]),
  )

const POWERS: readonly PowerWord[] = ['live', 'fed', 'danger', 'off', 'provedDead']
const bands = (): Drawn =>
  Object.fromEntries(
    POWERS.map(power => [
      power,
      (alt: string) => (
        <div role="img" aria-label={alt}>
          <Band power={power} />
        </div>
      ),
    ]),
  )
/** One cell of the strip in each state that it can have; what lies round it is the same. */
const cells = (): Drawn => {
  const all: Drawn = {}
  for (const device of ['closed', 'open', 'tripped'] as const)
    for (const p of [0.02, 0.9])
      for (const unlikely of p < 0.5 ? [false, true] : [false])
        for (const here of [false, true])
          all[`${device}, ${unlikely ? 'unlikely' : p}${here ? ', work here' : ''}`] = alt => (
            <Strip
              alt={alt}
              working={here ? 'B2' : undefined}
              cells={['B1', 'B2', 'B3'].map(id =>
                id === 'B2' ? { id, p, unlikely, device } : { id, p: 0.3, unlikely: false, device: 'closed' },
              )}
            />
          )
  return all
}

const KINDS: Readonly<Record<string, () => Drawn>> = {
  cabinet: () => Object.fromEntries(Object.entries(cabinets()).map(([name, props]) => [name, alt => <Cabinet {...props} alt={alt} />])),
  band: bands,
  buses,
  cell: cells,
  strip: strips,
  supply: supplies,
  branch: trees,
  cable: cables,
}

/** Draws all of a kind in a language; tells how many there are, none if one of them is not on the page. */
const show = async (kind: string, language: Language): Promise<number> => {
  await setLanguage(language)
  const root = document.getElementById('app')
  const drawn = Object.entries(KINDS[kind]?.() ?? {})
  if (!root) throw new Error('there is no place to draw')
  render(null, root)
  render(
    <main class="place" style="display: block">
      {drawn.map(([name, draw]) => (
        <div key={name}>{draw(name)}</div>
      ))}
    </main>,
    root,
  )
  return root.querySelectorAll('[role=img]').length === drawn.length ? drawn.length : 0
}
Object.assign(globalThis, { show, kinds: Object.keys(KINDS) })
