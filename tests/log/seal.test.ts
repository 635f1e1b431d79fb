import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import { expect, onTestFinished, test } from 'vitest'
import { replay } from '../../web/flow/session.ts'
import { canonical } from '../../web/log/canonical.ts'
import { exportJson, readExport } from '../../web/log/export.ts'
import { readSessions } from '../../web/log/import.ts'
import { whatOf } from '../../web/log/row.ts'
import { type Claim, chain, grouped, sealOf, verify } from '../../web/log/seal.ts'
import { SESSION, stored } from './samples.ts'

// Example of RFC 8785 section 3.2.2 to 3.2.4, as printed in its author's repository.
test('a value is written as in the example of RFC 8785', () => {
  const sample = String.raw`{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],
    "string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}`
  expect(canonical(JSON.parse(sample))).toBe(
    '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
  )
})
// The order of keys in RFC 8785 section 3.2.3 (from memory): by UTF-16 code units, not by code points.
test('keys stand in the order of their UTF-16 code units', () => {
  const keys = ['\u20ac', '\ufb33', '1', '\u{1f600}', '\u0080', '\u00f6']
  expect(canonical(Object.fromEntries(keys.map(key => [key, 0])))).toMatch(/"1".*\u0080.*\u00f6.*\u20ac.*\u{1f600}.*\ufb33/u)
})
test('what is no JSON is refused, minus nought is nought, what is missing is left out', () => {
  for (const no of [Number.NaN, Number.POSITIVE_INFINITY, undefined, () => 1]) expect(() => canonical([no])).toThrow()
  expect(canonical({ b: -0, a: undefined })).toBe('{"b":0}')
})
test('[seed 8] whatever the order of its keys, a value has one form, and it is JSON for the same value', () => {
  const turned = (found: unknown): unknown => {
    if (Array.isArray(found)) return found.map(turned)
    if (typeof found !== 'object' || found === null) return found
    return Object.fromEntries(
      Object.entries(found)
        .reverse()
        .map(([key, inside]) => [key, turned(inside)]),
    )
  }
  fc.assert(
    fc.property(fc.json(), text => {
      const value: unknown = JSON.parse(text)
      expect(canonical(turned(value))).toBe(canonical(value))
      expect(JSON.parse(canonical(value))).toEqual(JSON.parse(JSON.stringify(value)))
    }),
    { seed: 8, numRuns: 1000 },
  )
})

const EVENTS = stored(SESSION)
test('the chain is what another implementation of SHA-256 makes of the canonical events', async () => {
  const sha = (...parts: (string | Buffer)[]) => parts.reduce((hash, part) => hash.update(part), createHash('sha256')).digest()
  let last = sha('{"format":"ohmward.session","id":"id","version":1}')
  const hashes = EVENTS.map(event => {
    last = sha(last, canonical(event))
    return last.toString('hex')
  })
  expect(await chain('id', EVENTS)).toEqual(hashes)
})

const FILE = await exportJson({ events: async () => EVENTS }, 'id')
const claimIn = (text: string): Claim | undefined => {
  const read = readSessions(text)
  return read.ok ? read.value.sessions[0] : undefined
}
const sound = claimIn(FILE.text)
/** Refused as a file, or found by its seal. */
const isFound = async (text: string, noted?: string): Promise<boolean> => {
  const claim = claimIn(text)
  return claim === undefined || !(await verify(claim, noted)).ok
}
const edited = (edit: (events: unknown[]) => unknown[]): string => {
  const file = JSON.parse(FILE.text)
  return JSON.stringify({ ...file, events: edit(file.events) })
}

test('a file as it was written fits its seal', async () => {
  expect(await isFound(FILE.text)).toBe(false)
  expect(await isFound(edited(events => events))).toBe(false)
})
test('every edit of one byte is found, unless the file still says the very same', async () => {
  let [found, same] = [0, 0]
  for (let i = 0; i < FILE.text.length; i++) {
    const code = FILE.text.charCodeAt(i)
    for (const put of [String.fromCharCode(code ^ 1), code === 0x39 ? '0' : '9', '']) {
      const text = FILE.text.slice(0, i) + put + FILE.text.slice(i + 1)
      if (await isFound(text)) {
        found += 1
        continue
      }
      const claim = claimIn(text)
      // Space between the values, and when it was exported, are no part of the session.
      expect([claim?.id, claim?.events], `byte ${i} made ${JSON.stringify(put)}`).toEqual([sound?.id, sound?.events])
      same += 1
    }
  }
  expect(found).toBeGreaterThan(5 * same)
}, 120_000)
test('every swap of two events, and every inner event taken out, is found even when the numbers were set right', async () => {
  const numbered = (events: unknown[]) => events.map((event, i) => ({ ...Object(event), seq: i + 1 }))
  for (let i = 1; i < EVENTS.length; i++)
    for (let j = i + 1; j < EVENTS.length; j++) {
      const swapped = (events: unknown[]) => events.map((event, k) => (k === i ? events[j] : k === j ? events[i] : event))
      expect(await isFound(edited(events => numbered(swapped(events))))).toBe(true)
    }
  for (let i = 1; i < EVENTS.length - 1; i++) {
    const without = (events: unknown[]) => events.filter((_, k) => k !== i)
    expect(await isFound(edited(without))).toBe(true)
    expect(await isFound(edited(events => numbered(without(events))))).toBe(true)
  }
})
test('a cut tail that was sealed anew is found against the head on a printed report, and only there', async () => {
  const printed = grouped((await sealOf('id', EVENTS)).head)
  expect(await isFound(FILE.text, printed)).toBe(false)
  for (let kept = 1; kept < EVENTS.length; kept++) {
    const cut = EVENTS.slice(0, kept)
    const { text } = await exportJson({ events: async () => cut }, 'id')
    expect(await isFound(text)).toBe(false)
    expect(await isFound(text, printed)).toBe(true)
  }
  const grown = await exportJson({ events: async () => stored([...SESSION, { type: 'stopped' }]) }, 'id')
  const claim = claimIn(grown.text)
  expect(claim && (await verify(claim, printed))).toMatchObject({ ok: false, message: expect.stringContaining('1 events came after') })
})
test("another session's events do not fit, and in a file of lines the first wrong one is named", async () => {
  const seal = await sealOf('id', EVENTS)
  expect((await verify({ id: 'other', events: EVENTS, seal })).ok).toBe(false)
  const hashes = await chain('id', EVENTS)
  const events = EVENTS.map((event, i) => (i === 4 ? { ...event, mono: 1 } : event))
  expect(await verify({ id: 'id', events, hashes })).toMatchObject({ ok: false, message: expect.stringMatching(/^Event 5 /) })
})

const kept = (file: string): string => fileURLToPath(new URL(file, import.meta.url))
const golden = kept('golden-1.json')
test.each([
  ['golden-1.json', 'e68ac3bda9adbf9df9457ab5ded3c696179abb87bda7c7a8cdfdb7fc2220a01f', 14],
  // Its answers stand beside what was asked.
  ['golden-2.json', 'b5726730724565ba38d96031554c8c213cb986dfff9f80080bb4fe3c3dcd752f', 18],
] as const)('the kept file %s is read for ever, fits its seal, and is written as the same session', async (file, head, count) => {
  const text = readFileSync(kept(file), 'utf8')
  const claim = claimIn(text)
  if (!claim) throw new Error('the kept file cannot be read')
  const seal = { head, count }
  expect(await verify(claim, seal)).toEqual({ ok: true, seal, sealed: true })
  const again = await exportJson({ events: async () => [...claim.events] }, claim.id, { appVersion: '0.1.0' })
  expect({ ...JSON.parse(again.text), exportedAt: '' }).toEqual({ ...JSON.parse(text), exportedAt: '' })
})

test('whatever later versions would ask, the kept session plays again with its own questions, to its own end', () => {
  const read = readExport(readFileSync(kept('golden-2.json'), 'utf8'))
  if (!read.ok) throw new Error(read.message)
  const session = replay(read.value.events)
  expect(session.entries.map(({ request }) => whatOf(request))).toEqual([
    'before-work',
    'supply-lamp',
    'device B2',
    'device B1',
    'supply off',
    'prove-dead',
    'device B2 open',
    'ohm B2.plus B2.zero',
    'short B2 W2 2.3..13.6 m',
    'short B2 W2 2.3..13.6 m',
    'ohm B2.plus B2.zero',
    'device B2 closed',
    'voltage-may-return',
    'supply on',
    'supply-lamp',
    'volt B2.plus B2.zero',
    'device B1',
  ])
  expect(session.finding).toMatchObject({ fault: 'short', branch: 'B2', run: 'W2' })
})

test('the command tells a file that fits, one that was changed, one that was cut, and one that is none', () => {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-verify-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const top = fileURLToPath(new URL('../..', import.meta.url))
  const run = (name: string, text: string, ...more: string[]) => {
    const file = join(folder, name)
    writeFileSync(file, text)
    const { status, stdout, stderr } = spawnSync(process.execPath, ['tests/run-ts.mjs', 'tests/verify.ts', file, ...more], {
      cwd: top,
      encoding: 'utf8',
    })
    return { status, said: stdout + stderr }
  }
  const text = readFileSync(golden, 'utf8')
  expect(run('sound.json', text)).toMatchObject({ status: 0, said: expect.stringMatching(/^FITS .*head [0-9a-f]{8} /) })
  expect(run('changed.json', text.replace('riveted', 'painted'))).toMatchObject({ status: 1, said: expect.stringMatching(/^CHANGED /) })
  expect(run('noted.json', text, '--head', 'aaaaaaaa bbbbbbbb')).toMatchObject({
    status: 1,
    said: expect.stringContaining('not the noted'),
  })
  expect(run('newer.json', text.replace('"version": 1', '"version": 2'))).toMatchObject({
    status: 2,
    said: expect.stringContaining('version is 2'),
  })
})
