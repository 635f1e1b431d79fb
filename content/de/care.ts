// Care at single steps, what is looked at before a machine goes back to work, and the check of a phone. German.
import type { Sentences } from '../words.ts'

export const care: Sentences['care'] = {
  atStep: {
    live: 'Die Maschine kann anlaufen: Hände weg. Eine abgerutschte Spitze macht einen Kurzschluss.',
    hot: 'Nach einem Kurzschluss können Leiter und Stecker heiß sein.',
    motion: 'Hände weg von allem, was sich bewegen, fallen oder schließen kann.',
    look: 'Nachsehen bewegt und öffnet nichts. Repariert wird erst spannungsfrei.',
    source: 'Übliche Praxis, ohne Quelle',
  },
  after: {
    title: 'Bevor die Maschine wieder arbeitet',
    points: [
      'Die Adernummern sind wieder dran, jede Ader wo sie war.',
      'Klemmen sind mit ihrem Drehmoment angezogen; ein Zug an jeder Ader hält.',
      'Die Zugentlastung hält. Das Kabel liegt frei von der Kante, die es durchgescheuert hat.',
      'Wo Verdrahtung einer Sicherheitsfunktion berührt wurde, ist diese Funktion geprüft.',
      'Es ist bekannt, in welchem Zustand Steuerung und Antriebe wieder anlaufen.',
      'Werkzeug und Ersatzteile sind aus der Maschine. Schlösser sind ab.',
      'Jemand hat die Maschine namentlich zurückgenommen.',
    ],
    done: 'Alles ist getan',
    source:
      '29 CFR 1910.147(e), Freigabe nach dem Sichern (Abschnitt aus dem Gedächtnis); IEC 60204-1 13.1 und 18 (aus dem Gedächtnis); übliche Praxis',
  },
  check: {
    title: 'Dieses Telefon prüfen',
    lead: 'Zum Vorlesen für die Instandhaltung.',
    version: 'Version der App',
    offline: 'Geht ohne Netz',
    kept: 'Browser behält den Speicher',
    space: 'Speicher belegt',
    sessions: 'Sitzungen',
    unfinished: 'davon offen',
    machines: 'Maschinen',
    photos: 'Fotos',
    exported: 'Letzter Export',
    clock: 'Uhr',
    jumps: 'Uhrsprünge',
    browser: 'Browser',
    yes: 'ja',
    no: 'NEIN',
    unknown: 'nicht bekannt',
    never: 'nie',
    failed: 'Das Protokoll ist nicht lesbar',
    busy: 'Sieht nach …',
    jumped: 'in den letzten 50 Sitzungen',
    share: 'Als Text teilen',
    back: 'Zurück',
  },
}
