// The machine file: what is known of the wiring. Everything past a branch's id may be missing.

export interface Supply {
  readonly ratedVoltage?: number
  readonly setVoltage?: number
  readonly ratedCurrent?: number
  readonly limit?: { readonly mode: 'constant-current' | 'hiccup' | 'latch-off' | 'unknown'; readonly current?: number }
  readonly zeroVoltBonded?: boolean
  /** What it gives above its limit, and for how long: A, s. */
  readonly reserve?: { readonly current: number; readonly seconds: number }
  /** Seconds for which a supply that pulses or latches off gives its limit first. */
  readonly holds?: number
}
/** From a device's own data sheet: carries up to `carries` A for good, opens from `opens` A on within `seconds`. */
export interface DataSheet {
  readonly carries: number
  readonly opens: number
  readonly seconds: number
}
export interface Protection {
  readonly kind: 'breaker' | 'fuse' | 'electronic' | 'none'
  readonly rating?: number
  readonly curve?: 'B' | 'C' | 'D' | 'Z'
  /** What a breaker is built to; IEC 60898-1 is taken where nobody has said, for the letters B, C and D are its. */
  readonly standard?: 'IEC 60898-1' | 'IEC 60898-2' | 'IEC 60947-2'
  /** Quick and slow 5 × 20 mm cartridges of low breaking capacity, the North American series, and 24 V blade fuses. */
  readonly fuse?: 'F' | 'T' | 'UL' | 'blade'
  readonly dataSheet?: DataSheet
}
export type Conductor = { readonly area: number; readonly class?: 1 | 2 | 5 } | { readonly awg: number; readonly stranded?: boolean }
/** A two-conductor cable, plus and its 0 V return, from one junction to the next. Length in metres, temperature in °C. */
export interface Run {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly length: number
  readonly conductor?: Conductor
  readonly moving?: boolean
  readonly temperature?: number
}
export interface Load {
  readonly id: string
  readonly name?: string
  readonly at: string
  readonly kind: 'coil' | 'electronic' | 'lamp' | 'motor'
  readonly watts?: number
  readonly pluggable?: boolean
  /** From its data sheet: the peak in A at 24 V, and the time constant in s with which it dies away. */
  readonly inRush?: { readonly peak: number; readonly seconds: number }
  /** At the input of an electronic load, F. */
  readonly capacitance?: number
}
export interface Branch {
  readonly id: string
  readonly name?: string
  readonly protection?: Protection
  readonly wiring?: readonly Run[]
  readonly loads?: readonly Load[]
}
export interface Machine {
  readonly format: 'ohmward.machine'
  readonly version: 1
  readonly id: string
  readonly name: string
  readonly place?: string
  readonly supply: Supply
  readonly branches: readonly Branch[]
}

/** A meter's accuracy: ± (percent of reading + counts × step of the range). */
export interface Accuracy {
  readonly percent?: number
  readonly counts?: number
  readonly resolution?: number
}
/** What the technician has at hand. Nothing but a meter unless named. */
export interface Kit {
  readonly meter?: { readonly ohm?: Accuracy; readonly volt?: Accuracy; readonly amp?: Accuracy; readonly series?: Accuracy }
  readonly clamp?: boolean
  readonly injector?: { readonly ampere: number; readonly volts: number }
  readonly qualified?: boolean
}

/** What a reader of files gives back: the value, or the field that is wrong, the value found there and a sentence that says so. */
export type Checked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly field: string; readonly found: string; readonly message: string }
