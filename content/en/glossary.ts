// The few words of the trade that steps use, one sentence each. English.

export const glossary: readonly (readonly [word: string, meaning: string])[] = [
  ['Branch', 'All that one device in the cabinet feeds.'],
  ['Device', 'Breaker, fuse or electronic device that protects a branch.'],
  ['Bus', 'The rail or bridge that feeds all devices, and the one that takes all 0 V back.'],
  ['Terminals', 'Where a branch leaves the cabinet, past its device.'],
  ['Run', 'A cable from one junction to the next: a 24 V core and a 0 V core.'],
  ['Near end', 'The end of a run that is nearer to the cabinet.'],
  ['Junction', 'A box, plug or terminal where runs and loads meet.'],
  ['Load', 'What a branch is there for: valve, sensor, contactor, lamp, motor.'],
  ['Earth link', 'The link from 0 V to protective earth.'],
  ['Proved dead', 'Plus to 0 V, plus to earth, 0 V to earth: all read nothing, on a tested meter.'],
  ['OL', 'Past the range of the display: open, or far too large.'],
  ['Current source', 'An isolated supply, limited in current and to 24 V, that feeds one branch.'],
  ['Clamp', 'A meter that reads amperes round one conductor, without opening it.'],
]
