import { exportMany } from '../../web/log/export.ts'
import type { StoredEvent } from '../../web/log/log.ts'

/** Sessions as one file, as a phone exports them. */
export const fileOf = async (sessions: Readonly<Record<string, readonly StoredEvent[]>>): Promise<string> => {
  const source = { events: async (id: string) => [...(sessions[id] ?? [])] }
  for await (const { text } of exportMany(source, Object.keys(sessions), 'all', 'json')) return text
  throw new Error('no file')
}

/** Sheets of a printed page. */
export const countPages = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0
