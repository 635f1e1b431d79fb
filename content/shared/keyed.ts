// The build leaves the keys out of every language's file, since they are the same in each: there a table is the list of its values,
// in English order. Here it gets its keys back.

/** A table's keys in order: each with the keys of the table under it, or with 0 where a word stands. */
export type Keys = { readonly [key: string]: Keys | 0 }

/** The table that was written as `values`; a part that is no list was written with its keys and stays as it is. */
export const keyed = (keys: Keys, values: unknown): unknown =>
  Array.isArray(values)
    ? Object.fromEntries(Object.entries(keys).map(([key, under], i) => [key, under === 0 ? values[i] : keyed(under, values[i])]))
    : values
