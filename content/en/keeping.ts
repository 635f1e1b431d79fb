// Words of photos, tables, exports, the report of many sessions, and readings over time. English.

export const keeping = {
  photos: {
    title: 'Photos',
    take: 'Take a photo',
    note: 'Kept smaller and without the camera’s notes. They leave this phone only where an export says so.',
    none: 'None.',
    busy: 'Making it smaller …',
    failed: 'This picture cannot be kept. All else is saved.',
    alt: (n: number) => `Photo ${n}`,
    drop: 'Delete this photo',
    sure: 'Delete it for good',
    keep: 'Keep it',
    gone: (n: number) => `${n} named in the record are not on this phone.`,
    withPhotos: 'Photos, in files of their own',
    taken: (file: string, added: number, known: number, strangers: number) =>
      `${file}: ${added} new photos, ${known} known before.${strangers > 0 ? ` ${strangers} not kept: take in their sessions first.` : ''}`,
  },
  tables: { comma: 'Tables with decimal comma, cells parted by ;', overview: 'One table of all (CSV)' },
  left: {
    ask: (name: string) => `Is ${name} where it should be?`,
    yes: 'Yes, it is there',
    no: 'No',
    last: (time: string) => `Last exported ${time}.`,
    never: 'Not exported yet.',
    copied: (name: string) => `${name} was copied to the clipboard.`,
    copy: 'Copy as text',
    notCopied: 'This browser does not copy.',
    notGone: 'It does not count as exported.',
  },
  overall: {
    title: (what: string) => `Sessions: ${what}`,
    link: 'Report of these sessions',
    sum: (all: number, found: number) => `${all} sessions, ${found} with a confirmed finding.`,
  },
  trend: {
    title: 'The same points over time',
    note: 'Readings at the same points in the latest sessions at this machine. A slow decline shows here. Hollow dots: before the repair.',
    show: 'Readings over time',
    none: 'No point was read in more than one session.',
    before: 'before the repair',
    after: 'after the repair',
    busy: (n: number) => `Reading ${n} sessions …`,
    points: 'Points',
    day: 'Day',
    reading: 'Reading',
  },
}
