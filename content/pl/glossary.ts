// Polish: the few words of the trade that steps use.
import type { Sentences } from '../words.ts'

export const glossary: Sentences['glossary'] = [
  ['Obwód', 'Wszystko, co zasila jedno zabezpieczenie w szafie.'],
  ['Zabezpieczenie', 'Wyłącznik nadprądowy, bezpiecznik lub zabezpieczenie elektroniczne obwodu.'],
  ['Szyna', 'Szyna lub mostek zasilający wszystkie zabezpieczenia, i ta, do której wracają wszystkie 0 V.'],
  ['Zaciski odpływowe', 'Tam obwód opuszcza szafę, za swoim zabezpieczeniem.'],
  ['Odcinek', 'Przewód od jednego złącza do następnego: żyła 24 V i żyła 0 V.'],
  ['Bliższy koniec', 'Ten koniec odcinka, który leży bliżej szafy.'],
  ['Złącze', 'Puszka, wtyk lub zacisk, gdzie schodzą się odcinki i odbiorniki.'],
  ['Odbiornik', 'To, po co jest obwód: zawór, czujnik, stycznik, lampka, silnik.'],
  ['Mostek do ziemi', 'Połączenie 0 V z przewodem ochronnym.'],
  ['Brak napięcia potwierdzony', 'Plus do 0 V, plus do ziemi, 0 V do ziemi: wszędzie nic, sprawdzonym miernikiem.'],
  ['OL', 'Poza zakresem wyświetlacza: przerwa albo o wiele za dużo.'],
  ['Źródło prądu', 'Izolowane zasilanie, ograniczone prądowo i do 24 V, dla jednego obwodu.'],
  ['Cęgi', 'Miernik, który czyta ampery wokół jednej żyły, bez jej rozłączania.'],
]
