// What the designer's page speaks of, in SI units, told anew here since words know no engine; and how it becomes words.
import type { Figures } from './figures.ts'
import { word } from './ids.ts'

export interface Verdict {
  readonly opens: 'always' | 'up to' | 'never' | 'perhaps' | 'not known'
  readonly upTo: number
  readonly endsIn?: string
  readonly neverPast: number
  readonly missing: readonly string[]
  readonly fromMemory?: string
}

export interface Currents {
  readonly lowNear: number
  readonly lowFar: number
  readonly highNear: number
}

export interface Protection {
  readonly kind: string
  readonly rating?: number
  readonly curve?: string
}

export interface Advice {
  readonly breaker?: { readonly rating: number; readonly curve: string }
  readonly area?: number
  readonly supply?: number
  readonly electronic?: { readonly above: number; readonly most: number }
  readonly halves?: {
    readonly first: readonly string[]
    readonly second: readonly string[]
    readonly rating: number
    readonly curve: string
  }
}

export interface Guarded {
  readonly is: string
  readonly run?: string
  readonly area?: number
  readonly carries?: number
  readonly short?: { readonly ampere: number; readonly bears: number; readonly opensIn: number }
}

export interface ProtectionSentences {
  readonly verdict: {
    readonly always: string
    readonly upTo: (metres: string) => string
    readonly never: string
    readonly may: string
    readonly mayUpTo: (metres: string) => string
    readonly notKnown: string
  }
  /** What a verdict lacks; the keys are the engine's. */
  readonly lacking: Readonly<Record<string, string>>
  readonly missing: (list: string) => string
  /** Added where a figure stands in that is from memory. */
  readonly byMemory: (verdict: string) => string
  readonly shorts: (highNear: string, lowFar: string) => string
  readonly noDevice: string
  /** `opens` is the current from which it opens for certain; nothing where that is not known. */
  readonly stays: (holds: string, opens: string | undefined) => string
  readonly device: {
    readonly notKnown: string
    readonly none: string
    readonly breaker: string
    readonly fuse: string
    readonly electronic: string
  }
  readonly advice: {
    readonly breaker: (curve: string, rating: string) => string
    readonly area: (mm2: string) => string
    readonly supply: (ampere: string) => string
    readonly electronic: (above: string, most: string) => string
    readonly halves: (first: string, second: string, device: string) => string
  }
  readonly guards: Readonly<Record<string, string>>
  readonly guard: {
    readonly alone: (is: string) => string
    readonly whole: (is: string, run: string, mm2: string, carries: string, ampere: string, bears: string, opens: string) => string
    readonly bearsLong: string
    readonly opensIn: (time: string) => string
    readonly opensPerhaps: string
  }
  /** `low`: under 20.4 V; `much`: a drop of more than 5 %. */
  readonly drop: (volts: string, load: string, low: boolean, percent: string, much: boolean) => string
  readonly supply: {
    /** `how`: one of the three below, or nothing. */
    readonly gives: (volts: string, ampere: string, how: string | undefined) => string
    readonly limitNotKnown: (volts: string) => string
    readonly modes: { readonly 'constant-current': string; readonly hiccup: string; readonly 'latch-off': string }
    readonly modeNotKnown: string
    readonly draws: (ampere: string, overloaded: boolean) => string
  }
  readonly switching: {
    readonly limitNotKnown: string
    readonly within: string
    readonly withinPerhaps: string
    readonly past: string
    /** Before one of the three above, where figures are guessed. */
    readonly guessed: (loads: number) => string
    /** After it: for how long the supply is at its limit. */
    readonly inAll: (time: string) => string
  }
  readonly wait: {
    readonly supply: string
    readonly together: string
    readonly after: (time: string) => string
    readonly past: string
  }
  readonly here: (branch: string, metres: string, low: string, high: string) => string
  readonly currentAlt: (branch: string, verdict: string) => string
  readonly inrushAlt: (peak: string, time: string) => string
}

/** Limits of IEC 61131-2:2007 (24 V less 15 %) and IEC 60364-5-52 Table G.52.1. */
const LEAST_VOLTS = 20.4
const MOST_DROP = 5
/** A conductor that bears it longer than this counts as bearing it: past it, heat is lost (IEC 60364-4-43). */
const LONG = 5

const isMode = (mode: string): mode is keyof ProtectionSentences['supply']['modes'] =>
  ['constant-current', 'hiccup', 'latch-off'].includes(mode)
const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`

/** The sentences of a language as functions of what the designer's page reckons. */
export const protectionFrom = (s: ProtectionSentences, { round, ampere, metresDown, volt, second }: Figures) => ({
  /** `length`: metres to the branch's farthest end. */
  verdictWords: (v: Verdict, length: number): string => {
    const { verdict } = s
    switch (v.opens) {
      case 'always':
        return verdict.always
      case 'up to':
        return verdict.upTo(metresDown(v.upTo))
      case 'never':
        return verdict.never
      case 'perhaps':
        return v.neverPast < length - 0.1 ? verdict.mayUpTo(metresDown(v.neverPast)) : verdict.may
      case 'not known':
        return verdict.notKnown
    }
  },
  /** What is missing, loud; nothing where the answer is known. */
  missingWords: (v: Verdict): string => {
    if (v.missing.length === 0) return ''
    const missing = s.missing(v.missing.map(m => word(s.lacking, m)).join('; '))
    return v.fromMemory ? `${missing} ${s.byMemory(v.fromMemory)}` : missing
  },
  figureWords: (f: Currents, band: { readonly holds: number; readonly opens: number }): string =>
    `${s.shorts(ampere(f.highNear), ampere(f.lowFar))} ${
      band.holds === Infinity ? s.noDevice : s.stays(ampere(band.holds), band.opens === Infinity ? undefined : ampere(band.opens))
    }`,
  deviceWords: (p: Protection | undefined): string => {
    if (p === undefined) return s.device.notKnown
    if (p.kind === 'none') return s.device.none
    const rating = p.rating === undefined ? '? A' : `${round(p.rating, 3)} A`
    const kind = p.kind === 'fuse' ? s.device.fuse : p.kind === 'electronic' ? s.device.electronic : p.curve ? '' : s.device.breaker
    return [kind, p.curve, rating].filter(Boolean).join(' ')
  },
  /** One sentence for each way, its source at the end. */
  adviceWords: ({ breaker, area, supply, electronic, halves }: Advice): readonly string[] => [
    ...(breaker ? [s.advice.breaker(breaker.curve, `${round(breaker.rating, 3)} A`)] : []),
    ...(area ? [s.advice.area(`${round(area, 3)} mm²`)] : []),
    ...(supply ? [s.advice.supply(`${round(supply, 3)} A`)] : []),
    ...(electronic ? [s.advice.electronic(ampere(electronic.above), ampere(Math.floor(electronic.most * 10) / 10))] : []),
    ...(halves ? [s.advice.halves(halves.first.join(', '), halves.second.join(', '), `${halves.curve} ${round(halves.rating, 3)} A`)] : []),
  ],
  guardWords: (g: Guarded): string => {
    const is = word(s.guards, g.is)
    if (g.carries === undefined || g.area === undefined || g.short === undefined) return s.guard.alone(is)
    const bears = g.short.bears >= LONG ? s.guard.bearsLong : second(g.short.bears)
    const opens = g.short.opensIn === Infinity ? s.guard.opensPerhaps : s.guard.opensIn(second(g.short.opensIn))
    return s.guard.whole(is, g.run ?? '?', `${round(g.area, 2)} mm²`, ampere(g.carries), ampere(g.short.ampere), bears, opens)
  },
  /** Volts left at a load, the drop, and the supply's rated volts. */
  dropWords: (load: string, volts: number, drop: number, rated: number): string => {
    const percent = (100 * drop) / rated
    return s.drop(volt(volts), load, volts < LEAST_VOLTS, `${round(percent, 1)} %`, percent > MOST_DROP)
  },
  supplyWords: (volts: number, limit: number | undefined, mode: string | undefined, draws: number, overloaded: boolean): string => {
    const how = mode === undefined ? undefined : isMode(mode) ? s.supply.modes[mode] : s.supply.modeNotKnown
    const gives = limit === undefined ? s.supply.limitNotKnown(volt(volts)) : s.supply.gives(volt(volts), ampere(limit), how)
    return `${gives} ${s.supply.draws(ampere(draws), overloaded)}`
  },
  switchingWords: (fits: string, asUsual: boolean | undefined, atLimit: number, guessed: number): string => {
    const { switching } = s
    if (asUsual === undefined) return switching.limitNotKnown
    const within = fits === 'yes' ? switching.within : fits === 'not known' && asUsual ? switching.withinPerhaps : switching.past
    const said = guessed > 0 ? `${switching.guessed(guessed)} ${within}` : capital(within)
    return `${said}${atLimit > 0 ? `, ${switching.inAll(second(atLimit))}` : ''}.`
  },
  waitWords: ({ group, wait, past }: { readonly group: number; readonly wait: number; readonly past: boolean }): string => {
    const when = group === 0 ? s.wait.supply : wait === 0 ? s.wait.together : s.wait.after(second(wait))
    return `${when}${past ? `; ${s.wait.past}` : ''}`
  },
  hereWords: (branch: string, metres: string, low: number, high: number): string => s.here(branch, metres, ampere(low), ampere(high)),
  currentAlt: s.currentAlt,
  inrushAlt: (peak: number, seconds: number): string => s.inrushAlt(ampere(peak), second(seconds)),
})
