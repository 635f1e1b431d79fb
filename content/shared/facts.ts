// Reasons are made of facts: a figure or an id under a name.
import { figures } from './figures.ts'
import type { Facts } from './types.ts'

type Fact = string | number | undefined

/** What a language's sentences take out of facts; `sign` is its decimal sign. A fact that is missing shows as a question mark. */
export const factsWith = (sign: '.' | ',') => ({
  of: (facts: Facts, key: string): string =>
    typeof facts[key] === 'number' ? figures(sign).written(String(facts[key])) : String(facts[key] ?? '?'),
  yes: (fact: Fact): boolean => fact !== undefined && !['', '0', 'no', 'false'].includes(String(fact)),
  metres: (fact: Fact): string => (Number.isFinite(Number(fact)) ? figures(sign).about(Number(fact)) : `${fact ?? '?'} m`),
})

/** The reason in a sentence; empty for a key that has no words. */
export const whySentence = (
  whys: Readonly<Record<string, (facts: Facts) => string>>,
  why: { readonly key: string; readonly facts: Facts },
): string => whys[why.key]?.(why.facts) ?? ''
