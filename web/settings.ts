// What a technician sets once for this phone: the hand, light or dark, sound and vibration. Nothing of it is part of a session.
export interface Settings {
  readonly hand: 'right' | 'left'
  readonly theme: 'light' | 'dark' | 'phone'
  readonly sound: 'off' | 'on'
  readonly vibration: 'on' | 'off'
}
export type Setting = keyof Settings
/** The first of each is what holds until something else is chosen: light, since a cabinet may stand in the sun (NUREG-0700: dark on light). */
export const CHOICES = {
  hand: ['right', 'left'],
  theme: ['light', 'dark', 'phone'],
  sound: ['off', 'on'],
  vibration: ['on', 'off'],
} as const satisfies { readonly [K in Setting]: readonly Settings[K][] }

const KEY = 'ohmward.settings'
const PAPER = { light: '#fbfaf6', dark: '#12181f' } as const

/** Reads what was kept; whatever is none of the choices counts as not chosen. */
export const settingsFrom = (text: string | null): Settings => {
  let kept: Record<string, unknown> = {}
  try {
    kept = Object(JSON.parse(text ?? '{}'))
  } catch {
    // Spoiled by something else: as if nothing were chosen.
  }
  const of = <K extends Setting>(key: K): Settings[K] => {
    const list = CHOICES[key] as readonly unknown[] as readonly Settings[K][]
    return list.find(choice => choice === kept[key]) ?? (list[0] as Settings[K])
  }
  return { hand: of('hand'), theme: of('theme'), sound: of('sound'), vibration: of('vibration') }
}

const stored = (): string | null => {
  try {
    return localStorage.getItem(KEY)
  } catch {
    return null
  }
}
let current = settingsFrom(null)
export const settings = (): Settings => current

/** Shows the hand and the theme on the page: style sheets read them there. */
export const showSettings = (): void => {
  const root = document.documentElement
  const dark = current.theme === 'dark' || (current.theme === 'phone' && matchMedia('(prefers-color-scheme: dark)').matches)
  root.dataset['hand'] = current.hand
  root.dataset['theme'] = dark ? 'dark' : 'light'
  document.querySelector('meta[name="theme-color"]')?.setAttribute('content', dark ? PAPER.dark : PAPER.light)
}
export const startSettings = (): void => {
  current = settingsFrom(stored())
  showSettings()
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', showSettings)
}
/** Changes one setting at once and keeps it, where the browser keeps anything. */
export const set = <K extends Setting>(key: K, value: Settings[K]): void => {
  current = { ...current, [key]: value }
  showSettings()
  try {
    localStorage.setItem(KEY, JSON.stringify(current))
  } catch {
    // A browser that stores nothing asks anew the next time.
  }
}
