// What a standard or a data sheet promises of a device: at so many times its rating, not before this, not after that.

/** One promise. Every gate of a device holds at once, and a device opens the sooner the greater its current. */
export interface Gate {
  /** Current in times the rating. */
  readonly times: number
  /** Seconds for which it certainly stays closed at this current. */
  readonly notBefore?: number
  /** Seconds in which it certainly opens at this current. */
  readonly within?: number
  /** Ratings in A that the promise is for, both included. */
  readonly ratings?: readonly [low: number, high: number]
  readonly source: string
  /** False: from memory, seen in no published copy. Nothing is decided by it. */
  readonly confirmed: boolean
}

/** What a device does in a given time, in A. Between the two it may open or not: no standard says which. */
export interface Band {
  /** Up to here it certainly stays closed; 0 where nothing is promised. */
  readonly holds: number
  /** From here it certainly opens; Infinity where nothing is promised. */
  readonly opens: number
  /** Seconds that it may take from `opens` on. */
  readonly seconds: number
  readonly sources: readonly string[]
}

/** The band within `seconds`, from those gates that are for this rating (A). */
export const bandWithin = (gates: readonly Gate[], rating: number, seconds: number): Band => {
  const own = gates.filter(({ ratings: [low, high] = [0, Infinity] }) => rating >= low && rating <= high)
  const most = own.filter(g => (g.notBefore ?? 0) >= seconds).sort((a, b) => b.times - a.times)[0]
  const least = own.filter(g => (g.within ?? Infinity) <= seconds).sort((a, b) => a.times - b.times)[0]
  return {
    holds: (most?.times ?? 0) * rating,
    opens: (least?.times ?? Infinity) * rating,
    seconds: least?.within ?? Infinity,
    sources: [most, least].flatMap(g => (g === undefined ? [] : [g.source])),
  }
}
