// The normal distribution, and mixtures of normals cut to a stretch.

/** Share of a standard normal below z. Abramowitz and Stegun 7.1.26, error below 1.5e-7: ample for a place in centimetres. */
export const normalBelow = (z: number): number => {
  const x = Math.abs(z) / Math.SQRT2
  const t = 1 / (1 + 0.3275911 * x)
  const erf = 1 - ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t * Math.exp(-x * x)
  return z < 0 ? (1 - erf) / 2 : (1 + erf) / 2
}

export interface Part {
  readonly share: number
  readonly mean: number
  readonly sd: number
}

/** The value below which share `q` lies of what a mixture has between `low` and `high`; of nothing there, the nearer end. */
export const quantileWithin = (parts: readonly Part[], q: number, low: number, high: number): number => {
  const below = (x: number): number =>
    parts.reduce((sum, { share, mean, sd }) => sum + share * normalBelow((x - mean) / Math.max(sd, 1e-9)), 0)
  const [start, end] = [below(low), below(high)]
  if (end - start < 1e-9) return parts.every(({ mean }) => mean > high) ? high : low
  let [from, to] = [low, high]
  for (let halving = 0; halving < 50; halving++) {
    const middle = (from + to) / 2
    if (below(middle) - start < q * (end - start)) from = middle
    else to = middle
  }
  return (from + to) / 2
}
