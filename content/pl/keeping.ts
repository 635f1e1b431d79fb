// Polish words of photos, tables, exports, the report of many sessions, and readings over time.
import type { Sentences } from '../words.ts'

export const keeping: Sentences['keeping'] = {
  photos: {
    title: 'Zdjęcia',
    take: 'Zrób zdjęcie',
    note: 'Zapisywane pomniejszone i bez danych aparatu. Opuszczają telefon tylko, gdy eksport tak mówi.',
    none: 'Brak.',
    busy: 'Pomniejszanie …',
    failed: 'Tego obrazu nie można zapisać. Cała reszta jest zapisana.',
    alt: n => `Zdjęcie ${n}`,
    drop: 'Usuń to zdjęcie',
    sure: 'Usuń na zawsze',
    keep: 'Zachowaj',
    gone: n => `Wymienionych w zapisie, a nieobecnych w tym telefonie: ${n}.`,
    withPhotos: 'Zdjęcia, w osobnych plikach',
    taken: (file, added, known, strangers) =>
      `${file}: nowe zdjęcia: ${added}, znane wcześniej: ${known}.${strangers > 0 ? ` Niezachowane: ${strangers}; najpierw wczytać ich sesje.` : ''}`,
  },
  tables: { comma: 'Tabele z przecinkiem dziesiętnym, komórki dzielone ;', overview: 'Jedna tabela wszystkich' },
  left: {
    ask: name => `Czy ${name} jest tam, gdzie trzeba?`,
    yes: 'Tak, jest tam',
    no: 'Nie',
    last: time => `Ostatni eksport ${time}.`,
    never: 'Jeszcze nie wyeksportowano.',
    copied: name => `${name} jest w schowku.`,
    copy: 'Kopiuj jako tekst',
    notCopied: 'Ta przeglądarka nie kopiuje.',
    notGone: 'Nie liczy się jako wyeksportowane.',
  },
  overall: {
    title: what => `Sesje: ${what}`,
    link: 'Raport z tych sesji',
    sum: (all, found) => `Sesje: ${all}, z potwierdzonym wynikiem: ${found}.`,
  },
  trend: {
    title: 'Te same punkty w czasie',
    note: 'Odczyty w tych samych punktach w ostatnich sesjach przy tej maszynie. Tu widać powolne pogorszenie. Puste punkty: przed naprawą.',
    show: 'Odczyty w czasie',
    none: 'Żadnego punktu nie zmierzono w więcej niż jednej sesji.',
    before: 'przed naprawą',
    after: 'po naprawie',
    busy: n => `Czytanie sesji: ${n} …`,
    points: 'Punkty pomiaru',
    day: 'Dzień',
    reading: 'Odczyt',
  },
}
