// Polish: why a step is asked for.
import { factsWith } from '../shared/facts.ts'
import type { Facts } from '../shared/types.ts'
import type { Sentences } from '../words.ts'

const { of, yes, metres } = factsWith(',')
const branches = (f: Facts): string => {
  const list = of(f, 'branches').split(', ')
  const more = Number(f['count'] ?? 0) - list.length
  return `${list.length + Math.max(0, more) > 1 ? 'Obwody' : 'Obwód'} ${list.join(', ')}${more > 0 ? ` i jeszcze ${more}` : ''}`
}

export const whys: Sentences['whys'] = {
  recorded: () => 'Tak wtedy zapytano.',
  'mains-first': () => 'Bez sieci nie działa żaden zasilacz 24 V. Lampka mówi to bez narzędzi.',
  'lamp-tells': () => 'Lampka zasilacza odróżnia przeciążenie, brak wyjścia i stan dobry w pięć sekund.',
  drop: f => `Prąd zwarcia daje miliwolty tylko na własnym zabezpieczeniu. ${of(f, 'branches')} mają ${of(f, 'p')} na 100.`,
  'supply-off-first': () => 'Omy i odłączone żyły wymagają obwodu bez napięcia.',
  'prove-dead-first': () => 'Tylko trzy pomiary potwierdzają brak napięcia. Zgaszona lampka niczego nie dowodzi.',
  'prove-dead-again': () => 'Od ostatniego potwierdzenia napięcie mogło wrócić.',
  'held-volts': f => `Zasilacz daje przy limicie ${of(f, 'ampere')} A: wolty na szynach mówią, ile omów ma to, co go przytrzymuje.`,
  'device-past': f => `Przy otwartym zabezpieczeniu pomiar na obwodzie ${of(f, 'branch')} widzi tylko jego własne przewody.`,
  group: f =>
    `${branches(f)}: razem ${of(f, 'p')} na 100. Jeden pomiar ${Number(f['count']) === 1 ? 'wyklucza go lub wskazuje' : 'wyklucza je lub wskazuje'}.`,
  likeliest: f =>
    `Obwód ${of(f, 'branch')} ma ${of(f, 'p')} na 100${f['metres'] === undefined ? '' : `: ${metres(f['metres'])} przewodów${yes(f['moving']) ? ', część z nich ruchoma' : ''}`}.`,
  narrow: f => `To zawęża miejsce w obwodzie ${of(f, 'branch')} z ${metres(f['before'])} do około ${metres(f['after'])}.`,
  kind: f => `To mówi, jaka usterka jest w obwodzie ${of(f, 'branch')}: do 0 V, do ziemi czy w odbiorniku.`,
  current: f => `Prąd w obwodzie ${of(f, 'branch')} zamienia wolty na omy: trzeba go znać.`,
  inject: f =>
    `Miliwolty przy znanym prądzie wskazują usterkę obwodu ${of(f, 'branch')} z dokładnością ${metres(f['after'])}, omy tylko ${metres(f['ohm'] ?? f['before'])}.`,
  'trace-volts': f => `Za przerwaną żyłą obwodu ${of(f, 'branch')} nie ma napięcia. Ten obwód ma ${of(f, 'p')} na 100.`,
  'trace-ohms': f => `Odbiorników za przerwaną żyłą brakuje w omach. Obwód ${of(f, 'branch')} ma ${of(f, 'p')} na 100.`,
  'live-trial': f =>
    `Omy są prawidłowe, więc usterkę widać tylko pod napięciem. Przy zamkniętych zabezpieczeniach: ${of(f, 'count')}, zasilacz pokaże, po której stronie leży.`,
  'watch-moving': f =>
    `Usterka, która pojawia się i znika, w spoczynku się ukrywa. Poruszaj tym, co się rusza w obwodzie ${of(f, 'branch')}, i patrz na miernik: ma ${of(f, 'p')} na 100.`,
  'other-supply': () =>
    'Przy wyłączonym zasilaczu napięcie pozostaje: inny zasilacz zasila któryś obwód albo szynę. To z obwodu znika po otwarciu jego zabezpieczenia.',
  'other-supply-branch': () => 'Napięcie za otwartym zabezpieczeniem pochodzi z innego zasilacza.',
  'zero-leads': f => `Wyzerowane przewody zawężają miejsce z ${metres(f['before'])} do około ${metres(f['after'])}.`,
  'go-look': f => `To miejsce ma ${of(f, 'p')} na 100. Oględziny trwają około ${of(f, 'seconds')} s, krócej niż dalsze pomiary.`,
  'look-along': f => `Nie ma już nic do mierzenia. Obwód ${of(f, 'branch')} ogląda się od końca do końca.`,
  'put-back': () => 'Co otwarto lub odłączono do pomiaru, wraca tak, jak było.',
  'check-mend': f => `Czyste omy w obwodzie ${of(f, 'branch')} nie pokazują zwarcia w spoczynku, zanim poda się napięcie.`,
  'prove-restored': () => 'Tylko stałe światło lampki i właściwe napięcie dowodzą, że napięcie sterowania wróciło.',
  'device-look': f => `Zabezpieczenie mogło samo się otworzyć. Wtedy obwód ${of(f, 'branch')} mierzy się błędnie.`,
  'device-open': f => `Tam nic nie było. Jeśli zabezpieczenie obwodu ${of(f, 'branch')} nie było otwarte, zmierzono inny obwód.`,
  'after-energising': f => `Od ostatnich oględzin było napięcie. Zabezpieczenie obwodu ${of(f, 'branch')} mogło się otworzyć.`,
  'load-aside': f => `Odbiornik ${of(f, 'load')} leży między żyłami obwodu ${of(f, 'branch')} i zafałszowuje pomiar.`,
  'switch-on': () => 'Następne oględziny lub pomiar wymagają załączonego zasilacza.',
  'off-to-look': () => 'Nikt nie zbliża się do zasilanego kabla: jego poruszenie może uruchomić odbiorniki.',
  repeat: () => 'Ostatni pomiar źle pasuje do poprzednich. Drugi to rozstrzygnie.',
  'in-rush': f =>
    `Wszystko naraz pobrałoby w pierwszej chwili ${of(f, 'ampere')} A; zasilacz daje ${of(f, 'limit')} A. Ten przychodzi później.`,
  pause: f => `Czekaj ${of(f, 'seconds')} s po poprzednim: jego prąd załączania musi najpierw minąć.`,
}
