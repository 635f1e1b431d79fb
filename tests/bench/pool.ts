// Testing several branches at once: open a group, and one reading tells whether any of it is at fault. Each is at fault with
// chance p on its own; where exactly one is at fault, `dictionary.ts` has the answer.

/** Tests per branch when groups of n are tested, then each of a bad group: 1/n + 1 − (1 − p)^n (Dorfman 1943). */
export const perBranch = (p: number, n: number): number => (n === 1 ? 1 : 1 / n + 1 - (1 - p) ** n)

/** Chance from which on testing one by one is best: (3 − √5)/2 (Ungar 1960, from memory). */
export const NEVER_POOL = (3 - Math.sqrt(5)) / 2

/** The best group size up to `most`, and what it costs a branch. */
export const bestGroup = (p: number, most = 100): { readonly size: number; readonly tests: number } =>
  Array.from({ length: most }, (_, i) => ({ size: i + 1, tests: perBranch(p, i + 1) })).reduce((a, b) => (b.tests < a.tests ? b : a))

/**
 * Expected tests for n branches when a group found bad is halved or so before anything else is touched: the best of the nested
 * plans (Sobel & Groll 1959, from memory), O(n³). `bad(m, n)`: of n left, some m hold at least one fault.
 */
export const nested = (p: number, n: number): number => {
  const q = 1 - p
  const clear: number[] = [0]
  const bad: number[][] = []
  const badOf = (m: number, of: number): number => (m === 1 ? (clear[of - 1] ?? 0) : (bad[m]?.[of] ?? 0))
  for (let of = 1; of <= n; of++) {
    for (let m = 2; m <= of; m++) {
      const some = 1 - q ** m
      let least = Number.POSITIVE_INFINITY
      for (let x = 1; x < m; x++)
        least = Math.min(least, 1 + ((q ** x - q ** m) / some) * badOf(m - x, of - x) + ((1 - q ** x) / some) * badOf(x, of))
      bad[m] = bad[m] ?? []
      ;(bad[m] ?? [])[of] = least
    }
    let least = Number.POSITIVE_INFINITY
    for (let x = 1; x <= of; x++) least = Math.min(least, 1 + q ** x * (clear[of - x] ?? 0) + (1 - q ** x) * badOf(x, of))
    clear[of] = least
  }
  return clear[n] ?? 0
}
