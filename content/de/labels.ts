// German words of the screens: power states, looks, results, reasons, answers.
import type { Sentences } from '../words.ts'

export const labels: Sentences['labels'] = {
  powers: {
    live: { word: 'UNTER SPANNUNG', allows: 'nur Volt' },
    fed: { word: 'QUELLE EIN', allows: 'Volt, Ampere' },
    off: { word: 'AUS, UNGEPRÜFT', allows: 'keine Ohm' },
    danger: { word: 'SPANNUNG DA', allows: 'Hände weg' },
    provedDead: { word: 'SPANNUNGSFREI', allows: 'Ohm erlaubt' },
  },
  seen: {
    'supply-lamp': { steady: 'Leuchtet', blinking: 'Blinkt', off: 'Aus' },
    'mains-lamp': { on: 'Netz ist da', off: 'Kein Netz' },
    device: { closed: 'Geschlossen', tripped: 'Ausgelöst', open: 'Offen' },
  },
  results: {
    restored: { title: 'Steuerspannung ist zurück', text: 'Fehler behoben, alles zurückgestellt, Lampe und Spannung nachgewiesen.' },
    'handed-over': {
      title: 'Übergib die Arbeit',
      text: '„Frühere Sitzungen“ auf der ersten Seite sagt der nächsten Person, was gemessen wurde.',
    },
    stopped: { title: 'Sitzung ist abgebrochen', text: 'Verlass die Maschine sicher. Das Protokoll bleibt erhalten.' },
  },
  leftOpen: 'Noch nicht zurückgestellt',
  fitsNothing: 'Kein einzelner Fehler passt. Miss das Letzte noch einmal, oder es sind zwei Fehler da.',
  cannots: {
    'out-of-reach': 'Komme nicht hin',
    'not-allowed': 'Darf es nicht',
    'no-tool': 'Das Werkzeug fehlt',
    'not-there': 'Gibt es hier nicht',
    'not-safe': 'Wäre nicht sicher',
  },
  wrongs: {
    'worn-through': 'Leitung durchgescheuert',
    crushed: 'Leitung gequetscht',
    'load-short': 'Verbraucher im Kurzschluss',
    plug: 'Stecker nass oder verbogen',
    loose: 'Klemme oder Litze lose',
    device: 'Schutzgerät defekt, falsch',
    supply: 'Netzteil ausgefallen',
    else: 'Etwas anderes',
  },
  answers: {
    cannot: why => `geht nicht: ${why}`,
    found: 'hier gefunden',
    notThere: 'nachgesehen, nicht da',
    notDead: volts => `nicht spannungsfrei: ${volts}`,
    done: 'erledigt',
    shows: value => `zeigt ${value}`,
    ac: 'AC',
    jumping: 'springt',
  },
}
