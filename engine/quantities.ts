// Units are types where lengths, areas, temperatures and resistances per metre meet, so that no two are mixed up. Elsewhere a plain
// number is in the SI unit that stands beside it.
declare const unit: unique symbol
/** A finite number that carries its unit `U` for the compiler; at run time it is a plain number. */
export type Quantity<U extends string> = number & { readonly [unit]: U }

export type Volt = Quantity<'V'>
export type Ohm = Quantity<'Ω'>
export type Metre = Quantity<'m'>
export type OhmPerMetre = Quantity<'Ω/m'>
/** Conductor area in mm², the trade's unit. */
export type SquareMillimetre = Quantity<'mm²'>
export type Celsius = Quantity<'°C'>

const finite = <Q extends number>(x: number, symbol: string): Q => {
  if (!Number.isFinite(x)) throw new RangeError(`not a value in ${symbol}: ${x}`)
  return x as Q
}
const notNegative = <Q extends number>(x: number, symbol: string): Q => {
  if (!(x >= 0)) throw new RangeError(`not a value in ${symbol}: ${x}`)
  return finite<Q>(x, symbol)
}

export const ohm = (x: number): Ohm => notNegative(x, 'Ω')
export const metre = (x: number): Metre => notNegative(x, 'm')
export const ohmPerMetre = (x: number): OhmPerMetre => notNegative(x, 'Ω/m')
export const squareMillimetre = (x: number): SquareMillimetre => notNegative(x, 'mm²')
export const celsius = (x: number): Celsius => finite(x, '°C')
