// Figures as a language writes them: SI units, the decimal sign of the language.

export type Figures = ReturnType<typeof figures>
/** A language’s figures; `sign` is its decimal sign. Arguments in V, A, Ω, m and s. */
export const figures = (sign: '.' | ',') => {
  const written = (text: string): string => text.replace('.', sign)
  const fixed = (x: number, digits: number): string => written(x.toFixed(digits))
  /** At most so many digits after the sign, no zeros at the end. */
  const round = (x: number, digits: number): string => written(String(Number(x.toFixed(digits))))
  /** A value as a meter would show it. Unit V, A or Ω. */
  const quantity = (value: number, unit: string): string => {
    const size = Math.abs(value)
    const [factor, prefix] = size >= 1e6 ? [1e-6, 'M'] : size >= 1000 ? [1e-3, 'k'] : size > 0 && size < 0.1 ? [1e3, 'm'] : [1, '']
    return `${written(String(Number((value * factor).toPrecision(4))))} ${prefix}${unit}`
  }
  return {
    sign: sign as string,
    written,
    fixed,
    round,
    quantity,
    /** Metres of a place: always one digit after the sign. */
    metres: (x: number): string => `${fixed(x, 1)} m`,
    /** Metres that a limit must not overstate: rounded down. */
    metresDown: (x: number): string => `${round(Math.floor(x * 10) / 10, 1)} m`,
    /** Metres in a sentence: '0.8 m', '12 m'. */
    about: (x: number): string => `${x < 10 ? round(x, 1) : Math.round(x)} m`,
    ampere: (x: number): string => `${x >= 100 ? Math.round(x) : x >= 10 ? round(x, 1) : round(x, 2)} A`,
    volt: (x: number): string => `${round(x, 1)} V`,
    second: (x: number): string => (x < 1 ? `${round(x * 1000, 1)} ms` : `${round(x, 2)} s`),
    /** Seconds as people say them. */
    duration: (seconds: number): string => {
      const minutes = Math.round(seconds / 60)
      if (seconds < 90) return `${Math.round(seconds)} s`
      return minutes < 120 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`
    },
  }
}
