// Polish words of the record for maintenance. Terms after PN-EN 13306 where known, else ours.
import type { Sentences } from '../words.ts'

export const record: Sentences['record'] = {
  wrong: 'Co było nie tak',
  modes: {
    name: 'Rodzaj uszkodzenia',
    meaning: 'Jak uszkodzenie się objawiło.',
    source: 'ISO 14224:2016, EN 13306:2017. Wybór rodzajów jest nasz.',
    terms: {
      'no-output': 'Brak wyjścia',
      'low-output': 'Za słabe wyjście',
      'erratic-output': 'Niestałe wyjście',
      'spurious-stop': 'Niezamierzony postój',
      'fails-to-start': 'Nie startuje na żądanie',
      other: 'Inny',
    },
  },
  mechanisms: {
    name: 'Mechanizm uszkodzenia',
    meaning: 'Proces fizyczny, chemiczny lub inny, który za nim stoi.',
    source: 'ISO 14224:2016 tabela B.2; numery z pamięci.',
    terms: {
      'short-circuit': '4.1 Zwarcie',
      'open-circuit': '4.2 Przerwa',
      'no-power': '4.3 Brak zasilania lub napięcia',
      'faulty-power': '4.4 Wadliwe zasilanie lub napięcie',
      'earth-fault': '4.5 Doziemienie lub wada izolacji',
      looseness: '1.5 Poluzowanie',
      wear: '2.4 Zużycie',
      breakage: '2.5 Pęknięcie',
      overheating: '2.7 Przegrzanie',
      contamination: '5.2 Zanieczyszczenie',
      unknown: '6.4 Nieznany',
    },
  },
  causes: {
    name: 'Przyczyna uszkodzenia',
    meaning: 'Okoliczności, które do niego doprowadziły: w projekcie, wykonaniu, montażu, użyciu lub utrzymaniu.',
    source: 'EN 13306:2017; grupy według ISO 14224:2016.',
    terms: {
      design: 'Projekt: obciążalność, materiał, trasa',
      fabrication: 'Wykonanie',
      installation: 'Montaż',
      'wear-in-use': 'Użycie: oczekiwane zużycie',
      'off-design': 'Użycie: poza granicami',
      'operating-error': 'Użycie: błąd',
      maintenance: 'Utrzymanie',
      unknown: 'Nieznana',
    },
  },
  place: {
    run: run => `odcinek ${run}`,
    load: load => `odbiornik ${load}`,
    branch: branch => `obwód ${branch}`,
    supply: 'zasilacz',
  },
  times: {
    down: {
      name: 'Czas niezdatności',
      meaning: 'Od uszkodzenia, jeśli podano kiedy, inaczej od początku sesji, do potwierdzenia 24 V (IEC 60050-192, 192-02-21).',
    },
    diagnosis: {
      name: 'Diagnoza',
      meaning: 'Od początku sesji do potwierdzenia miejsca: lokalizacja i diagnoza (192-07-02, rysunek 2).',
    },
    correction: { name: 'Naprawa', meaning: 'Od potwierdzonego miejsca do zgłoszenia naprawy (192-07-02, rysunek 2).' },
    checkOut: { name: 'Sprawdzenie', meaning: 'Od naprawy do potwierdzenia 24 V: sprawdzenie działania (192-07-02, rysunek 2).' },
  },
  timesNote: 'Czekanie na ludzi i części nie jest wydzielone. Czasy pochodzą z zegarów telefonu.',
  timesDoubt: 'Telefon spał, był uruchamiany od nowa albo przestawiono zegar: te czasy mogą być błędne.',
  sealWords:
    'Widać fałszowanie, nic więcej: zmiana, zamiana lub luka zmienia nagłówek. Obcięty koniec lub dziennik zapieczętowany od nowa widać tylko wobec nagłówka zapisanego gdzie indziej.',
}
