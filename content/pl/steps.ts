// Polish: a step in words.
import type { Sentences } from '../words.ts'

const UNITS = { volt: 'wolty', ohm: 'omy' } as const
const TIGHTEN = 'Dokręć go i pociągnij na próbę.'
const OWN_SWITCH = 'Użyj własnego łącznika maszyny. Tylko dla osoby tam upoważnionej.'

export const steps: Sentences['steps'] = {
  acts: {
    'supply on': { title: 'Załącz zasilacz 24 V', how: `Zdejmij blokadę. ${OWN_SWITCH}`, done: 'Zasilacz jest załączony' },
    'supply off': {
      title: 'Wyłącz zasilacz 24 V i zablokuj go',
      how: `${OWN_SWITCH} Załóż blokadę, klucz zachowaj.`,
      done: 'Wyłączony, zablokowany',
    },
    'prove-dead': {
      title: 'Potwierdź brak napięcia',
      how: 'Miernik na V: sprawdź go na baterii. Zmierz 1, 2 i 3, DC i AC. Sprawdź go ponownie.',
      done: 'Na trzech brak napięcia',
    },
    'zero-leads': {
      title: 'Zewrzyj końcówki i wyzeruj miernik',
      how: 'Pokrętło na Ω. Końcówki mocno razem. Naciśnij klawisz zera. Czekaj, aż wskazanie stanie.',
      done: 'Wyzerowany, pokazuje 0',
    },
    'fuse open': {
      title: a => `Wyjmij bezpiecznik obwodu ${a.branch}`,
      how: 'Wyjmij go bez obciążenia. Trzymaj go pod ręką.',
      done: a => `Bezpiecznik ${a.branch} wyjęty`,
    },
    'fuse closed': {
      title: a => `Włóż bezpiecznik obwodu ${a.branch}`,
      how: 'Włóż go raz, ten sam prąd i rodzaj. Jeśli znów się przepali, zostaw go wyjęty.',
      done: a => `Bezpiecznik ${a.branch} włożony`,
    },
    'breaker open': {
      title: a => `Otwórz wyłącznik obwodu ${a.branch}`,
      how: 'Wyłącz go. Pozostałe zostaw, jak są.',
      done: a => `Wyłącznik ${a.branch} otwarty`,
    },
    'breaker closed': {
      title: a => `Zamknij wyłącznik obwodu ${a.branch}`,
      how: 'Zamknij go raz. Jeśli znów się otworzy, zostaw go otwarty.',
      done: a => `Wyłącznik ${a.branch} zamknięty`,
    },
    'device open': {
      title: a => `Otwórz zabezpieczenie obwodu ${a.branch}`,
      how: 'Wyłącz wyłącznik albo wyjmij bezpiecznik. Pozostałe zostaw, jak są.',
      done: a => `Zabezp. ${a.branch} otwarte`,
    },
    'device closed': {
      title: a => `Zamknij zabezpieczenie obwodu ${a.branch}`,
      how: 'Zamknij je raz. Jeśli znów się otworzy, zostaw je otwarte.',
      done: a => `Zabezp. ${a.branch} zamknięte`,
    },
    'load plugged': {
      title: a => `Podłącz ${a.load} w obwodzie ${a.branch}`,
      how: 'Podłącz go tam, gdzie był.',
      done: 'Jest podłączony',
    },
    'load unplugged': {
      title: a => `Odłącz ${a.load} w obwodzie ${a.branch}`,
      how: 'Wyciągnij wtyk prosto. Trzymaj go z dala od wilgoci i brudu.',
      done: 'Jest odłączony',
    },
    'run joined': {
      title: a => `Połącz odcinek ${a.run} obwodu ${a.branch}${a.at}`,
      how: 'Połącz obie żyły tak, jak były. Pociągnij każdą na próbę.',
      done: a => `Odcinek ${a.run} połączony`,
    },
    'run opened': {
      title: a => `Rozłącz odcinek ${a.run} obwodu ${a.branch}${a.at}`,
      how: 'Odłącz obie żyły, + i 0 V. Oznacz je. Trzymaj końce osobno.',
      done: a => `Odcinek ${a.run} rozłączony`,
    },
    'bus joined': { title: 'Połącz znów przewód wyjściowy zasilacza z szyną', how: TIGHTEN, done: 'Wyjście połączone' },
    'bus opened': {
      title: 'Rozłącz przewód wyjściowy zasilacza od szyny',
      how: 'Odłącz przewód + przy zasilaczu. Osłoń jego koniec.',
      done: 'Wyjście rozłączone',
    },
    'bond joined': { title: 'Połącz znów mostek od 0 V do ziemi', how: TIGHTEN, done: 'Mostek połączony' },
    'bond opened': {
      title: 'Rozłącz mostek od 0 V do ziemi',
      how: 'Odłącz mostek przy 0 V. Dopóki go nie ma, niczego się nie załącza.',
      done: 'Mostek rozłączony',
    },
    'inject on': {
      title: a => `Podłącz źródło prądu do obwodu ${a.branch}`,
      how: a =>
        `Zabezpieczenie otwarte. Plus do ${a.branch} +, powrót do ${a.into === 'earth' ? 'ziemi' : `${a.branch} 0 V`}. Odłącz je po pomiarach.`,
      done: a => `Źródło zasila ${a.branch}`,
    },
    'inject off': {
      title: a => `Odłącz źródło prądu od obwodu ${a.branch}`,
      how: 'Najpierw wyłącz źródło, potem zdejmij jego przewody.',
      done: 'Źródło odłączone',
    },
  },
  points: {
    earth: 'zacisk uziemienia',
    earthShort: 'ziemia',
    supplyShort: 'zasilacz',
    busShort: 'szyna',
    supply: plus => `zasilacz, zacisk ${plus ? '+' : '0 V'}`,
    bus: plus => `szyna ${plus ? '24 V' : '0 V'}`,
    branch: (branch, plus) => `obwód ${branch}, zacisk odpływowy ${plus ? '+' : '0 V'}`,
    run: (run, plus) => `odcinek ${run}, bliższy koniec, żyła ${plus ? '24 V' : '0 V'}`,
    junction: (junction, plus) => `złącze ${junction}, ${plus ? '24 V' : '0 V'}`,
  },
  at: { cabinet: ' przy szafie', junction: junction => ` przy złączu ${junction}` },
  read: {
    amp: branch => `Zmierz ampery w obwodzie ${branch}`,
    between: (meter, red, black) => `Zmierz ${UNITS[meter]}: ${red}; ${black}`,
    supply: meter => `Zmierz ${UNITS[meter]} na zaciskach zasilacza`,
    bus: meter => `Zmierz ${UNITS[meter]} na szynach`,
    branch: (meter, branch) => `Zmierz ${UNITS[meter]} na obwodzie ${branch}, zaciski odpływowe`,
    run: (meter, run, at) => `Zmierz ${UNITS[meter]} w głąb odcinka ${run}, na bliższym końcu${at}`,
    junction: (meter, junction, branch) => `Zmierz ${UNITS[meter]} na złączu ${junction} obwodu ${branch}`,
    series: 'Miernik w szeregu ze źródłem, przewody w A i COM. Potem czerwony przewód wraca do VΩ.',
    clamp: 'Wyzeruj cęgi. Obejmij tylko żyłę +, strzałka od zasilacza.',
    probes: (red, black) => `Czerwona: ${red}. Czarna: ${black}.`,
    waitOhm: 'Czekaj, aż wskazanie stanie.',
    waitVolt: 'Pokrętło na V, napięcie stałe.',
  },
  look: {
    device: (branch, kind) => {
      const names = { fuse: 'bezpiecznik', breaker: 'wyłącznik', device: 'zabezpieczenie' }
      return `Obejrzyj ${names[kind]} obwodu ${branch}`
    },
    supplyLamp: 'Obejrzyj lampkę zasilacza',
    mainsLamp: 'Sprawdź, czy zasilacz ma sieć',
    deviceHow: 'Tylko patrz. Nie przełączaj.',
    lampHow: 'Tylko patrz. Osłony zostają zamknięte.',
  },
}
