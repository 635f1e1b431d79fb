// The machine file: what is known of the wiring. Everything past a branch's id may be missing.

export interface Supply {
  readonly ratedVoltage?: number
  readonly setVoltage?: number
  readonly ratedCurrent?: number
  readonly limit?: { readonly mode: 'constant-current' | 'hiccup' | 'latch-off' | 'unknown'; readonly current?: number }
  readonly zeroVoltBonded?: boolean
}
export interface Protection {
  readonly kind: 'breaker' | 'fuse' | 'electronic' | 'none'
  readonly rating?: number
  readonly curve?: 'B' | 'C' | 'D' | 'Z'
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
