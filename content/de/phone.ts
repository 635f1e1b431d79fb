// Words of the phone in the hand: settings, larger drawings, what is left, handing on. German.
import type { Sentences } from '../words.ts'

export const phone: Sentences['phone'] = {
  larger: 'Größere Zeichnung',
  settings: {
    title: 'Einstellungen',
    hand: 'Der Daumen, der tippt',
    theme: 'Hell oder dunkel',
    sound: 'Ton',
    vibration: 'Vibration',
    values: { right: 'Rechts', left: 'Links', light: 'Hell', dark: 'Dunkel', phone: 'Wie das Telefon', on: 'Ein', off: 'Aus' },
    extra: 'Ton und Vibration braucht es nie: Alles steht auch auf dem Bildschirm.',
  },
  left: {
    metres: (metres, minutes) => `noch ${metres} m, ${minutes} min`,
    branches: (branches, minutes) => `noch ${branches === 1 ? '1 Abzweig' : `${branches} Abzweige`}, ${minutes} min`,
  },
  scale: {
    ask: shown => `${shown} passt hier zu nichts. Das Tausendfache oder ein Tausendstel passt. Was zeigte die Anzeige?`,
    pick: value => `Sie zeigte ${value}`,
  },
  spoke: {
    title: 'Was dafür und dagegen sprach',
    branch: id => `Abzweig ${id}`,
    for: 'Dafür:',
    against: 'Dagegen:',
    share: (before, after) => `(${before} → ${after} von 100)`,
    nothing: 'Noch keine Antwort hat einen Abzweig bewegt.',
  },
  handOn: {
    file: 'Als Datei geben',
    codes: 'Als Codes geben',
    lead: 'Die Sitzung geht auf dem anderen Telefon weiter. Spannungsfreiheit ist dort neu festzustellen.',
    code: (n, of) => `Code ${n} von ${of}`,
    next: 'Nächster Code',
    close: 'Codes sind gelesen',
    read: 'Mit dem anderen Telefon lesen: Sitzung übernehmen.',
    ended: 'Diese Sitzung ist beendet. Es gibt nichts zu übernehmen.',
  },
}
