// What the drawings show, for those who cannot see them, and the few words in them. English.

export const drawings = {
  strip: {
    count: (branches: number) => `Terminal strip, ${branches} branches.`,
    likeliest: (list: string) => `Likeliest: ${list}.`,
    likely: (branch: string, of100: number) => `${branch} with ${of100} of 100`,
    none: 'No branch stands out.',
    unlikely: (list: string) => `Unlikely by now: ${list}.`,
    open: (list: string) => `Device not closed: ${list}.`,
    working: (branch: string) => `Work is at ${branch}.`,
  },
  cabinet: 'Drawing of the cabinet: supply, buses, devices, outgoing terminals, earth.',
  buses: (devices: number, closed: string) => `Drawing of the buses with all ${devices} devices. Closed: ${closed}.`,
  all: 'all',
  no: 'none',
  tips: 'Drawing of the meter on ohms, its tips held together.',
  mainsToSupply: 'Drawing of mains, switch and 24 V supply.',
  tree: {
    branch: (branch: string) => `Branch ${branch} to scale.`,
    run: (run: string, from: string, to: string, metres: string, moving: boolean) =>
      `Run ${run} from ${from} to ${to}, ${metres}${moving ? ', moving' : ''}.`,
    cabinet: 'the cabinet',
  },
  closed: {
    none: 'all devices open',
    all: 'all devices closed',
    some: (closed: number, count: number) => `${closed} of ${count} devices closed`,
    named: (names: string) => `closed: ${names}`,
  },
  plusBus: '24 V bus',
  zeroBus: '0 V bus',
  red: 'red',
  black: 'black',
  source: 'current source',
  mains: 'mains',
  supply: 'supply',
  on: 'on',
  off: 'off',
}
