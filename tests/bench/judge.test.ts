import { expect, test } from 'vitest'
import type { Finding } from '../../engine/step.ts'
import { findingSeconds } from './costs.ts'
import { judge } from './judge.ts'
import { smallMachine } from './small.ts'
import type { Fault } from './truth.ts'

const inRun = (run: string, low: number, high: number): Finding => ({
  fault: 'short',
  branch: 'B1',
  run,
  alongRun: { best: (low + high) / 2, low, high },
  probability: 1,
})
const short = (run: string, at: number): Fault => ({ kind: 'short-to-zero', branch: 'B1', run, at, ohm: 0.1 })
const loadShort: Fault = { kind: 'load-short', branch: 'B1', load: 'K1', ohm: 0.1 }

test.each<{ why: string; fault: Fault; finding: Finding; right: boolean; found?: boolean; covered?: boolean; known?: boolean }>([
  { why: 'inside the interval', fault: short('W3', 2), finding: inRun('W3', 1, 3), right: true, covered: true },
  { why: 'half a metre past its end', fault: short('W3', 3.5), finding: inRun('W3', 1, 3), right: true, covered: false },
  { why: 'further past its end', fault: short('W3', 3.6), finding: inRun('W3', 1, 3), right: false, covered: false },
  {
    why: 'an interval of no length is looked at for a metre',
    fault: short('W3', 2.5),
    finding: inRun('W3', 2, 2),
    right: true,
    covered: false,
  },
  { why: 'another run', fault: short('W3', 2), finding: inRun('W2', 1, 3), right: false, covered: false },
  {
    why: 'another run that begins at the junction half a metre away',
    fault: short('W3', 0.4),
    finding: inRun('W2', 0, 1),
    right: true,
    covered: false,
  },
  { why: 'the run before it, up to the junction', fault: short('W3', 0.4), finding: inRun('W1', 8, 10), right: true, covered: false },
  { why: 'the run before it, not up to the junction', fault: short('W3', 0.4), finding: inRun('W1', 8, 9.5), right: false, covered: false },
  { why: 'the run after it', fault: short('W1', 9.7), finding: inRun('W2', 0, 0.5), right: true, covered: false },
  {
    why: 'metres counted from the terminals',
    fault: short('W3', 2),
    finding: { fault: 'short', branch: 'B1', run: 'W3', fromTerminals: { best: 12, low: 11.5, high: 12.5 }, probability: 1 },
    right: true,
    covered: true,
  },
  {
    why: 'a run with no interval is the whole run',
    fault: short('W3', 6),
    finding: { fault: 'short', branch: 'B1', run: 'W3', probability: 1 },
    right: true,
    covered: true,
  },
  {
    why: 'branch alone, wiring known: found by walking, not right',
    fault: short('W3', 2),
    finding: { fault: 'short', branch: 'B1', probability: 1 },
    right: false,
    found: true,
  },
  {
    why: 'branch alone, wiring unknown',
    fault: short('W3', 2),
    finding: { fault: 'short', branch: 'B1', probability: 1 },
    right: true,
    known: false,
  },
  { why: 'the wrong branch', fault: short('W3', 2), finding: { fault: 'short', branch: 'B2', probability: 1 }, right: false, known: false },
  { why: 'the load', fault: loadShort, finding: { fault: 'load-short', branch: 'B1', load: 'K1', probability: 1 }, right: true },
  { why: 'the other load', fault: loadShort, finding: { fault: 'load-short', branch: 'B1', load: 'K2', probability: 1 }, right: false },
  { why: 'the run for a load', fault: loadShort, finding: inRun('W2', 3, 4), right: false },
  {
    why: 'a load for a run',
    fault: short('W3', 6),
    finding: { fault: 'load-short', branch: 'B1', load: 'K2', probability: 1 },
    right: false,
  },
  {
    why: 'an open device for a short circuit',
    fault: {
      kind: 'device-open',
      branch: 'B1',
      seen: 'tripped',
      behind: { kind: 'short-to-zero', branch: 'B1', run: 'W3', at: 2, ohm: 0.1 },
    },
    finding: { fault: 'device-open', branch: 'B1', probability: 1 },
    right: false,
  },
  {
    why: 'a device left open',
    fault: { kind: 'device-open', branch: 'B1', seen: 'open' },
    finding: { fault: 'device-open', branch: 'B1', probability: 1 },
    right: true,
  },
  { why: 'no mains', fault: { kind: 'no-mains' }, finding: { fault: 'no-mains', probability: 1 }, right: true },
  { why: 'a dead supply taken for no mains', fault: { kind: 'supply-dead' }, finding: { fault: 'no-mains', probability: 1 }, right: false },
])('$why: right $right', ({ fault, finding, right, found, covered, known }) => {
  expect(judge(smallMachine, fault, finding, known ?? true)).toEqual({
    right,
    found: found ?? right,
    ...(covered === undefined ? {} : { covered, ownRun: 'run' in fault && finding.run === fault.run }),
  })
})

test.each<{ why: string; finding: Finding; seconds: number }>([
  { why: 'the interval named', finding: inRun('W3', 1, 3), seconds: 70 },
  { why: 'the branch whole, 10 + 4 + 6 m', finding: { fault: 'short', branch: 'B1', probability: 1 }, seconds: 160 },
  {
    why: 'a load at its place',
    finding: { fault: 'load-short', branch: 'B1', load: 'K1', fromTerminals: { best: 14, low: 14, high: 14 }, probability: 1 },
    seconds: 60,
  },
  { why: 'the supply', finding: { fault: 'supply-dead', probability: 1 }, seconds: 60 },
])('going to look costs $seconds s: $why', ({ finding, seconds }) => {
  expect(findingSeconds(smallMachine, finding)).toBe(seconds)
})
