// Polish: what the drawings show, and the few words in them.
import type { Sentences } from '../words.ts'

export const drawings: Sentences['drawings'] = {
  strip: {
    count: branches => `Listwa zacisków, obwody: ${branches}.`,
    likeliest: list => `Najbardziej prawdopodobne: ${list}.`,
    likely: (branch, of100) => `${branch}, ${of100} na 100`,
    none: 'Żaden obwód się nie wyróżnia.',
    unlikely: list => `Już mało prawdopodobne: ${list}.`,
    open: list => `Zabezpieczenie niezamknięte: ${list}.`,
    working: branch => `Praca przy ${branch}.`,
  },
  cabinet: 'Rysunek szafy: zasilacz, szyny, zabezpieczenia, zaciski odpływowe, uziemienie.',
  buses: (devices, closed) => `Rysunek szyn ze wszystkimi zabezpieczeniami, razem ${devices}. Zamknięte: ${closed}.`,
  all: 'wszystkie',
  no: 'żadne',
  tips: 'Rysunek miernika na omach, końcówki zwarte.',
  mainsToSupply: 'Rysunek sieci, łącznika i zasilacza 24 V.',
  tree: {
    branch: branch => `Obwód ${branch} w skali.`,
    run: (run, from, to, metres, moving) => `Odcinek ${run} od ${from} do ${to}, ${metres}${moving ? ', ruchomy' : ''}.`,
    cabinet: 'szafa',
  },
  closed: {
    none: 'wszystkie otwarte',
    all: 'wszystkie zamknięte',
    some: (closed, count) => `zamknięte: ${closed} z ${count}`,
    named: names => `zamknięte: ${names}`,
  },
  plusBus: 'szyna 24 V',
  zeroBus: 'szyna 0 V',
  red: 'czerw.',
  black: 'czar.',
  source: 'źródło prądu',
  mains: 'sieć',
  supply: 'zasilacz',
  on: 'zał.',
  off: 'wył.',
}
