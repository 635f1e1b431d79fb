// One small set of sizes, spaces and colours, named in base.css: elsewhere a rule says which of them, and no figure of its own.
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const top = fileURLToPath(new URL('..', import.meta.url))
/** Apart: what names the tokens, what is exported as a file of its own, and the signs, which scale with their drawing. */
const APART = ['base.css', 'report.css', 'drawing.css']
/** Room kept for something that lies there, and no space between things. */
const ROOMS = ['padding-right: 78px', 'padding-top: 52px', 'scroll-margin: 110px 0 72px']
/** Paper and the ink on it do not change with the theme, nor does what lies behind a camera's picture or a dialog. */
const FIXED = ['background: #fff', 'background: #000', 'background: #0009', 'color: #12181f', 'border: 2px solid #12181f']

const LENGTH = /^(?:font-size|(?:row-|column-)?gap|(?:scroll-)?(?:padding|margin)(?:-\w+)?): .*\d(?:px|rem)/
const COLOUR = /#[0-9a-f]{3,8}\b|\b(?:rgb|hsl)a?\(/

/** Declarations of a style sheet for the screen. */
const declarations = (css: string): string[] => {
  const plain = css.replaceAll(/\/\*[\s\S]*?\*\//g, '')
  const printed = plain.search(/@media print/)
  return (printed < 0 ? plain : plain.slice(0, printed)).split(/[{};]/).map(part => part.trim())
}
const own = (css: string): string[] =>
  declarations(css).filter(d => (LENGTH.test(d) && !ROOMS.includes(d)) || (COLOUR.test(d) && !FIXED.includes(d)))

const files = (end: RegExp): string[] => readdirSync(`${top}/web`, { recursive: true, encoding: 'utf8' }).filter(file => end.test(file))
const read = (file: string): string => readFileSync(`${top}/web/${file}`, 'utf8')

const sheets = files(/\.css$/).filter(file => !APART.some(name => file.endsWith(name)))

test('style sheets are found', () => {
  expect(sheets.length).toBeGreaterThan(5)
})
test.each(sheets)('%s takes type sizes, spaces and colours from the tokens', file => {
  expect(own(read(file))).toEqual([])
})
test('a figure or a colour of its own is found', () => {
  expect(own('p { margin: 0 }\na { gap: 7px; color: #123456; padding: var(--space-gap) }')).toEqual(['gap: 7px', 'color: #123456'])
})
test('every token that is used has been named, and every one that is named is used', () => {
  const text = files(/\.(css|tsx?)$/)
    .map(read)
    .join('\n')
  const used = new Set(text.match(/var\(--(?:type|space)-\w+/g)?.map(x => x.slice(4)))
  const named = new Set(text.match(/--(?:type|space)-\w+(?=:)/g))
  expect([...used].sort()).toEqual([...named].sort())
})
