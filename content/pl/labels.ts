// Polish words of the screens: power states, looks, results, reasons, answers.
import type { Sentences } from '../words.ts'

export const labels: Sentences['labels'] = {
  powers: {
    live: { word: 'POD NAPIĘCIEM', allows: 'tylko wolty' },
    fed: { word: 'ŹRÓDŁO ZAŁ.', allows: 'wolty, ampery' },
    off: { word: 'NIESPRAWDZONE', allows: 'bez omów' },
    danger: { word: 'JEST NAPIĘCIE', allows: 'ręce precz' },
    provedDead: { word: 'BRAK NAPIĘCIA', allows: 'omy można' },
  },
  seen: {
    'supply-lamp': { steady: 'Świeci', blinking: 'Miga', off: 'Nie świeci' },
    'mains-lamp': { on: 'Sieć jest', off: 'Brak sieci' },
    device: { closed: 'Zamknięte', tripped: 'Wyzwolone', open: 'Otwarte' },
  },
  results: {
    restored: {
      title: 'Napięcie sterowania wróciło',
      text: 'Usterka naprawiona, wszystko na swoim miejscu, lampka i napięcie sprawdzone.',
    },
    'handed-over': { title: 'Przekaż pracę', text: '„Poprzednie sesje” na pierwszym ekranie mówią następnej osobie, co zmierzono.' },
    stopped: { title: 'Sesja jest zatrzymana', text: 'Zostaw maszynę bezpieczną. Dziennik jest zachowany.' },
  },
  leftOpen: 'Jeszcze nieprzywrócone',
  fitsNothing: 'Żadna pojedyncza usterka nie pasuje. Zmierz ostatnie jeszcze raz albo są dwie usterki.',
  cannots: {
    'out-of-reach': 'Nie sięgam tam',
    'not-allowed': 'Nie wolno mi tego',
    'no-tool': 'Brak narzędzia',
    'not-there': 'Tu tego nie ma',
    'not-safe': 'Nie byłoby bezpieczne',
  },
  wrongs: {
    'worn-through': 'Przewód przetarty',
    crushed: 'Przewód zgnieciony, cięty',
    'load-short': 'Zwarcie w odbiorniku',
    plug: 'Złącze mokre lub wygięte',
    loose: 'Luźny zacisk lub drucik',
    device: 'Zabezpieczenie złe',
    supply: 'Zasilacz uszkodzony',
    else: 'Coś innego',
  },
  answers: {
    cannot: why => `nie da się: ${why}`,
    found: 'znalezione tutaj',
    notThere: 'obejrzane, nie tu',
    notDead: volts => `jest napięcie: ${volts}`,
    done: 'zrobione',
    shows: value => `pokazuje ${value}`,
    ac: 'AC',
    jumping: 'skacze',
  },
}
