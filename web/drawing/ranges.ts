/** '1–4, 7' of these places in the list of names; nothing if that is longer than `most` signs. */
export const ranges = (names: readonly string[], places: readonly number[], most: number): string | undefined => {
  const parts: string[] = []
  for (let i = 0; i < places.length; i += 1) {
    const first = places[i] ?? 0
    let last = first
    while (places[i + 1] === last + 1) {
      last += 1
      i += 1
    }
    const gap = last - first
    parts.push(gap === 0 ? (names[first] ?? '') : `${names[first]}${gap === 1 ? ', ' : '–'}${names[last]}`)
  }
  const text = parts.join(', ')
  return text.length > most ? undefined : text
}
