// German: what the drawings show, and the few words in them.
import type { Sentences } from '../words.ts'

export const drawings: Sentences['drawings'] = {
  strip: {
    count: branches => `Klemmenleiste, ${branches} Abzweige.`,
    likeliest: list => `Am wahrscheinlichsten: ${list}.`,
    likely: (branch, of100) => `${branch} mit ${of100} von 100`,
    none: 'Kein Abzweig sticht hervor.',
    unlikely: list => `Inzwischen unwahrscheinlich: ${list}.`,
    open: list => `Schutzgerät nicht geschlossen: ${list}.`,
    working: branch => `Gearbeitet wird an ${branch}.`,
  },
  cabinet: 'Zeichnung des Schaltschranks: Netzteil, Schienen, Schutzgeräte, Abgangsklemmen, Erde.',
  buses: (devices, closed) => `Zeichnung der Schienen mit allen ${devices} Schutzgeräten. Geschlossen: ${closed}.`,
  all: 'alle',
  no: 'keines',
  tips: 'Zeichnung des Messgeräts auf Ohm, die Messspitzen zusammengehalten.',
  mainsToSupply: 'Zeichnung von Netz, Schalter und 24-V-Netzteil.',
  tree: {
    branch: branch => `Abzweig ${branch} maßstäblich.`,
    run: (run, from, to, metres, moving) => `Leitung ${run} von ${from} nach ${to}, ${metres}${moving ? ', bewegt' : ''}.`,
    cabinet: 'Schaltschrank',
  },
  closed: {
    none: 'alle Schutzgeräte offen',
    all: 'alle Schutzgeräte geschlossen',
    some: (closed, count) => `${closed} von ${count} geschlossen`,
    named: names => `geschlossen: ${names}`,
  },
  plusBus: '24-V-Schiene',
  zeroBus: '0-V-Schiene',
  red: 'rot',
  black: 'schw.',
  source: 'Stromquelle',
  mains: 'Netz',
  supply: 'Netzteil',
  on: 'ein',
  off: 'aus',
}
