// What a file's text may be: measured before anything is parsed, so that a hostile one is refused at once.
import { refuse } from '../../engine/fields.ts'

export const MOST_BYTES = 10_000_000
/** Each UTF-16 unit is at least one byte and at most three, so most texts need not be encoded to be measured. */
const bytesOf = (text: string): number =>
  text.length * 3 <= MOST_BYTES || text.length > MOST_BYTES ? text.length : new TextEncoder().encode(text).length

const MOST_LEVELS = 32
const QUOTE = 0x22
const BACKSLASH = 0x5c
/** Told from the text, by its brackets outside strings: a parser may already stumble over a file made of brackets. */
const isTooDeep = (text: string): boolean => {
  let level = 0
  let inString = false
  for (let i = 0; i < text.length && level <= MOST_LEVELS; i++) {
    const c = text.charCodeAt(i)
    if (c === QUOTE) inString = !inString
    else if (inString) i += c === BACKSLASH ? 1 : 0
    else if (c === 0x5b || c === 0x7b) level++
    else if (c === 0x5d || c === 0x7d) level--
  }
  return level > MOST_LEVELS
}

export const measured = (text: string): string => {
  const bytes = bytesOf(text)
  if (bytes > MOST_BYTES) refuse('', bytes, `at most ${MOST_BYTES} bytes long`)
  if (isTooDeep(text)) refuse('', text, `at most ${MOST_LEVELS} levels deep`)
  return text
}

export const parsed = (text: string, field = ''): unknown => {
  try {
    return JSON.parse(text)
  } catch {
    return refuse(field, text, 'JSON')
  }
}
