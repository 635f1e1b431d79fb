// German words of photos, tables, exports, the report of many sessions, and readings over time.
import type { Sentences } from '../words.ts'

export const keeping: Sentences['keeping'] = {
  photos: {
    title: 'Fotos',
    take: 'Foto aufnehmen',
    note: 'Verkleinert und ohne Kameradaten gespeichert. Verlassen das Telefon nur, wo ein Export es sagt.',
    none: 'Keine.',
    busy: 'Wird verkleinert …',
    failed: 'Dieses Bild lässt sich nicht speichern. Alles andere ist gespeichert.',
    alt: n => `Foto ${n}`,
    drop: 'Dieses Foto löschen',
    sure: 'Endgültig löschen',
    keep: 'Behalten',
    gone: n => `${n} im Protokoll genannte sind nicht auf diesem Telefon.`,
    withPhotos: 'Fotos, in eigenen Dateien',
    taken: (file, added, known, strangers) =>
      `${file}: ${added} neue Fotos, ${known} schon bekannt.${strangers > 0 ? ` ${strangers} nicht behalten: zuerst ihre Sitzungen einlesen.` : ''}`,
  },
  tables: { comma: 'Tabellen mit Dezimalkomma, Zellen durch ; getrennt', overview: 'Eine Tabelle von allen' },
  left: {
    ask: name => `Ist ${name} dort, wo es sein soll?`,
    yes: 'Ja, es ist dort',
    no: 'Nein',
    last: time => `Zuletzt exportiert ${time}.`,
    never: 'Noch nicht exportiert.',
    copied: name => `${name} liegt in der Zwischenablage.`,
    copy: 'Als Text kopieren',
    notCopied: 'Dieser Browser kopiert nicht.',
    notGone: 'Es gilt nicht als exportiert.',
  },
  overall: {
    title: what => `Sitzungen: ${what}`,
    link: 'Bericht dieser Sitzungen',
    sum: (all, found) => `${all} Sitzungen, ${found} mit bestätigtem Befund.`,
  },
  trend: {
    title: 'Dieselben Messpunkte im Lauf der Zeit',
    note: 'Messwerte an denselben Punkten in den letzten Sitzungen an dieser Maschine. Hier zeigt sich ein langsames Nachlassen. Hohle Punkte: vor der Reparatur.',
    show: 'Messwerte im Zeitverlauf',
    none: 'Kein Punkt wurde in mehr als einer Sitzung gemessen.',
    before: 'vor der Reparatur',
    after: 'nach der Reparatur',
    busy: n => `${n} Sitzungen werden gelesen …`,
    points: 'Messpunkte',
    day: 'Tag',
    reading: 'Messwert',
  },
}
