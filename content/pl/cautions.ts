// Polish cautions; the sources are those of the English ones.
import type { Sentences } from '../words.ts'

const MOTION = 'Wszyscy są z dala od ruchomych części. Ruch jest zabezpieczony.'
const STORED = 'Zawieszone ładunki są opuszczone. Nagromadzone ciśnienie jest spuszczone albo odcięte.'
const CLEAR = 'Wszyscy są bezpieczni'

export const cautions: Sentences['cautions'] = {
  'before-work': {
    title: 'Sprawdź to przed pracą',
    points: [
      'Zasady zakładu i prawo miejscowe są najważniejsze. Jest zgoda na tę pracę.',
      'Maszyna stoi. Nic nie wisi i nic nie jest trzymane ciśnieniem.',
      'Osoby przy maszynie wiedzą o pracy.',
      'Osoba upoważniona może wyłączyć i zablokować zasilacz jego własnym łącznikiem. Przycisk nie wystarcza.',
      'Osłony strony sieciowej pozostają zamknięte, chyba że pracuje osoba z uprawnieniami elektrycznymi. Sieć może być tuż obok 24 V.',
      '24 V nie jest nieszkodliwe: uruchamia maszyny, zwarcie parzy, a przewody mogą być gorące.',
      'Miernik, przewody i bateria do sprawdzenia są pod ręką. Nigdy miernik izolacji: niszczy elektronikę.',
      'Wiadomo, nad czym ostatnio pracowano i co ostatnio myto.',
      'Jest zdjęcie nastaw urządzeń. Zapasowe bezpieczniki i przewód są pod ręką.',
    ],
    done: 'Wszystko się zgadza',
    source: 'EN 50110-1, pięć zasad; 29 CFR 1910.147(d)(1) do (d)(6); 29 CFR 1910.333(b)(2)',
  },
  'voltage-may-return': {
    title: 'Napięcie może wrócić: najpierw zabezpiecz',
    points: [
      'Wszyscy są z dala od ruchomych części.',
      'Napięcie sterowania może uruchomić maszynę. Ruch jest zabezpieczony: nic nie ruszy, nie spadnie ani się nie zamknie.',
      STORED,
      'Żadna luźna żyła nie może niczego dotknąć.',
    ],
    done: CLEAR,
    source: '29 CFR 1910.147(e), zdjęcie blokady; 29 CFR 1910.333(b)(2)(v), ponowne załączenie (punkty z pamięci)',
  },
  injection: {
    title: 'Źródło prądu może uruchomić odbiorniki: najpierw zabezpiecz',
    points: [
      MOTION,
      STORED,
      'Zabezpieczenie tego obwodu jest otwarte i takie zostaje.',
      'Źródło jest izolowane, ograniczone do 24 V, jego prąd poniżej prądu znamionowego przewodu i zabezpieczenia.',
      'Jest włączone tylko na czas pomiarów.',
    ],
    done: CLEAR,
    source: 'Powszechna praktyka, bez źródła; załączenie jak w 29 CFR 1910.147(e) (punkt z pamięci)',
  },
  'switch-on-again': {
    title: 'Zwarcie może nadal być: najpierw zabezpiecz',
    points: [
      MOTION,
      STORED,
      'Załącza się raz, na najwyżej 60 sekund.',
      'Jeśli zasilacz znów padnie, jest od razu wyłączany. Z tymi zamkniętymi zabezpieczeniami pozostaje wyłączony.',
      'Nikt nie stoi przed otwartą szafą.',
    ],
    done: CLEAR,
    source: '29 CFR 1910.334(b)(2), bez powtórnych załączeń przed poznaniem przyczyny (z pamięci)',
  },
  'opening-live-device': {
    title: 'Otwarcie tego zabezpieczenia może przywrócić resztę',
    points: [MOTION, STORED, 'Bezpiecznika nigdy nie wyjmuje się pod obciążeniem: do tego zasilacz jest wyłączony.'],
    done: CLEAR,
    source: 'EN 50110-1, bezpieczniki i wtyki bez obciążenia (z pamięci); powszechna praktyka, bez źródła',
  },
  'not-extra-low-voltage': {
    title: 'Stop. To nie jest 24 V',
    points: [
      'Odsuń sondy. Niczego w szafie nie dotykaj.',
      'Odłącz maszynę od strony zasilania i zablokuj.',
      'Trzymaj innych z dala od maszyny.',
      'Wezwij uprawnionego elektryka.',
    ],
    done: 'Sesja jest zamknięta',
    source: '60 V DC, 25 V AC: granice bez ochrony podstawowej, na sucho, IEC 60364-4-41:2005, 414.4.5 (60 V z pamięci)',
  },
  'voltage-stays': {
    title: 'Napięcie nadal jest: znajdź, skąd pochodzi',
    points: [
      'Napięcie, które zostaje lub rośnie, pochodzi z innego zasilacza, modułu buforowego albo kondensatora.',
      'Zablokowany łącznik może być niewłaściwy.',
      'Żadnych omów i żadnej odłączonej żyły, póki jest napięcie.',
      'Po znalezieniu i wyłączeniu źródła brak napięcia sprawdza się ponownie.',
    ],
    done: 'Znalezione i wyłączone',
    source: '29 CFR 1910.333(b)(2)(ii)(C), energia nagromadzona; (b)(2)(iv), zasilanie zwrotne',
  },
  'mains-side': {
    title: 'Praca po stronie sieci: kto ją wykonuje',
    points: [
      'Osoba z uprawnieniami elektrycznymi jest tutaj i wykonuje pracę po stronie sieci.',
      'Ta osoba odłącza sieć, blokuje ją i sprawdza brak napięcia, zanim zdejmie osłonę.',
      'Przepisy miejscowe mówią, kto ma do tego kwalifikacje lub uprawnienia.',
      'Bez takiej osoby praca zostaje przekazana: dotknij „Nie da się”.',
    ],
    done: 'Osoba uprawniona jest tu',
    source: '29 CFR 1910.333(c)(2), osoby wykwalifikowane; EN 50110-1 i NFPA 70E (z pamięci)',
  },
}
