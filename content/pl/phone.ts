// Words of the phone in the hand: settings, larger drawings, what is left, handing on. Polish.
import type { Sentences } from '../words.ts'

export const phone: Sentences['phone'] = {
  larger: 'Większy rysunek',
  settings: {
    title: 'Ustawienia',
    hand: 'Kciuk, który stuka',
    theme: 'Jasny czy ciemny',
    sound: 'Dźwięk',
    vibration: 'Wibracja',
    values: { right: 'Prawy', left: 'Lewy', light: 'Jasny', dark: 'Ciemny', phone: 'Jak telefon', on: 'Tak', off: 'Nie' },
    extra: 'Dźwięk i wibracja nigdy nie są potrzebne: wszystko mówi ekran.',
  },
  left: {
    metres: (metres, minutes) => `zostało ${metres} m, ${minutes} min`,
    branches: (branches, minutes) => `zostało obwodów: ${branches}, ${minutes} min`,
  },
  scale: {
    ask: shown => `${shown} nie pasuje tu do niczego. Wartość tysiąc razy większa lub mniejsza pasuje. Co pokazał wyświetlacz?`,
    pick: value => `Pokazał ${value}`,
  },
  spoke: {
    title: 'Co przemawiało za i przeciw',
    branch: id => `Obwód ${id}`,
    for: 'Za:',
    against: 'Przeciw:',
    share: (before, after) => `(${before} → ${after} na 100)`,
    nothing: 'Żadna odpowiedź nie zmieniła jeszcze oceny obwodów.',
  },
  handOn: {
    file: 'Przekaż jako plik',
    codes: 'Przekaż jako kody',
    lead: 'Sesja trwa dalej na drugim telefonie. Brak napięcia trzeba tam stwierdzić na nowo.',
    code: (n, of) => `Kod ${n} z ${of}`,
    next: 'Następny kod',
    close: 'Kody są odczytane',
    read: 'Odczytaj drugim telefonem: Przejmij sesję.',
    ended: 'Ta sesja jest zakończona. Nie ma czego przejmować.',
  },
}
