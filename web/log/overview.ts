// Many sessions as one table for a spreadsheet: a line a session, of what the list and the charts know of it.
import { type Cell, POINT, type Style, table } from './csv.ts'
import { type ExportFile, fileName } from './export.ts'
import type { SessionSummary } from './log.ts'

/** Metres from the run's near end; times in seconds. */
const COLUMNS = [
  'session',
  'machine',
  'name',
  'started',
  'result',
  'fault',
  'branch',
  'run',
  'load',
  'metres',
  'metresLow',
  'metresHigh',
  'mode',
  'mechanism',
  'cause',
  'technician',
  'down',
  'diagnosis',
  'correction',
  'checkOut',
  'notDone',
] as const

const rowOf = ({ id, machineId, machineName, startedAt, result, facts }: SessionSummary): readonly Cell[] => {
  const { found, mode, mechanism, cause, who, times, cannots } = facts ?? {}
  const place = [found?.fault, found?.branch, found?.run, found?.load]
  const metres = [found?.alongRun?.best, found?.alongRun?.low, found?.alongRun?.high]
  const seconds = [times?.down, times?.diagnosis, times?.correction, times?.checkOut]
  return [id, machineId, machineName, startedAt, result, ...place, ...metres, mode, mechanism, cause, who, ...seconds, cannots?.length]
}

export const exportOverview = (sessions: readonly SessionSummary[], what: string, style: Style = POINT): ExportFile => ({
  name: fileName([what], 'csv'),
  mime: 'text/csv;charset=utf-8',
  text: table([COLUMNS, ...sessions.map(rowOf)], style),
})
