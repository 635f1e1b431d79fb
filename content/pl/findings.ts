// Polish faults, findings and mends.
import type { Sentences } from '../words.ts'

const STRAIN_RELIEF = 'Odciążka trzyma.'
const NOTHING_LEFT = 'Nie został żaden drucik, wiór ani narzędzie.'
const MAINS_SIDE = 'Po stronie sieci brak napięcia nie jest potwierdzony: pracuje tam tylko osoba z uprawnieniami elektrycznymi.'
const COOLING = 'Szczeliny chłodzenia są wolne.'

export const findings: Sentences['findings'] = {
  faults: {
    'short-to-zero': 'Żyła 24 V do żyły 0 V',
    'short-to-earth': 'Żyła 24 V do ziemi',
    'load-short': 'Zwarcie w odbiorniku',
    short: 'Zwarcie: do 0 V, do ziemi lub w odbiorniku',
    overload: 'Pobierany jest za duży prąd',
    'in-rush': 'Za dużo załączone naraz',
    'open-plus': 'Żyła 24 V przerwana',
    'open-zero': 'Żyła 0 V przerwana',
    'poor-joint': 'Złe połączenie: luźne, brudne lub przypalone',
    swapped: 'Żyły zamienione',
    diode: 'Dioda gasząca przebita lub odwrotnie włączona',
    intermittent: 'Zwarcie, które pojawia się i znika',
    backfeed: 'Napięcie podane z innej strony',
    'device-open': 'Zabezpieczenie jest otwarte',
    'supply-low': 'Zasilacz daje za małe napięcie',
    'supply-dead': 'Zasilacz nic nie daje',
    'no-mains': 'Zasilacz nie ma sieci',
  },
  title: {
    noMains: 'Ustal, dlaczego zasilacz nie ma sieci',
    deviceOpen: branch =>
      branch ? `Obejrzyj zabezpieczenie obwodu ${branch}: jest otwarte` : 'Obejrzyj zabezpieczenia: jedno jest otwarte',
    at: (run, metres, past) => `Idź obejrzeć odcinek ${run}, na ${metres} ${past}`,
    stretch: (run, from, to, past) => `Idź obejrzeć odcinek ${run}, od ${from} do ${to} ${past}`,
    pastCabinet: 'za zaciskami szafy',
    pastJunction: junction => `za złączem ${junction}`,
    run: (run, branch) => `Idź obejrzeć odcinek ${run}${branch && ` obwodu ${branch}`}`,
    load: (load, junction) => `Idź obejrzeć ${load}${junction && ` przy złączu ${junction}`}`,
    branch: branch => `Przejdź wzdłuż obwodu ${branch}, od szafy do odbiorników`,
    supply: 'Obejrzyj zasilacz 24 V i jego zaciski',
  },
  doubt: 'Najbardziej prawdopodobne, nieudowodnione.',
  inMoving: 'W przewodzie ruchomym.',
  inFixed: 'W przewodzie stałym.',
  how: {
    comesAndGoes: {
      look: 'Sprawdź, gdzie się zgina i ociera, także pół metra za każdym końcem.',
      hands: 'Podłącz miernik na bliskim końcu i zginaj kawałek po kawałku: gdzie omy spadają, tam jest miejsce.',
    },
    wrongWay: {
      look: 'Porównaj plus i 0 V z oznaczeniami, a pasek diody ma być od strony plusa.',
      hands: 'Odłącz go i zmierz diodę w obie strony: tylko w jedną może przewodzić.',
    },
    tooMuch: {
      look: 'Szukaj ciepła, zatartego wirnika i części o złej mocy.',
      hands: 'Obróć go ręką i porównaj jego omy z tabliczką.',
    },
    otherSupply:
      'Szukaj drugiego zasilacza, modułu podtrzymania albo połączenia z innym obwodem lub inną maszyną. Gdy jest wyłączony i zabezpieczony, potwierdź.',
    handsOff: 'Tylko patrz: brak napięcia nie jest potwierdzony.',
    noMains: 'Obejrzyj łącznik główny i wyłącznik przed nim. Osłony zostają zamknięte, chyba że masz uprawnienia elektryczne.',
    deviceOpen: 'Otworzyło się z jakiegoś powodu. Obejrzyj jego obwód, zanim je zamkniesz.',
    supplyDead: 'Sieć jest, ale nic nie wychodzi. Szukaj przypaleń, luźnych przewodów wyjściowych i zatkanych szczelin.',
    supply: 'Obejrzyj jego nastawę, przewody wyjściowe i to, co na nim wisi.',
    openRun: {
      look: 'Szukaj na obu końcach luźnej lub złamanej żyły, potem wzdłuż miejsca przeciętego lub zgniecionego.',
      hands: 'Pociągnij każdą żyłę.',
    },
    run: {
      look: 'Szukaj miejsca przetartego, zgniecionego, przeciętego lub gorącego, także pół metra za każdym końcem.',
      hands: 'Odsuń obejmy.',
    },
    load: {
      look: 'Szukaj wilgoci, przypaleń i wygiętych styków.',
      hands: 'Odłącz go i zajrzyj do obu złączy. Zwarcia wewnątrz nie widać: zmierz omy między jego stykami.',
    },
    branch: {
      look: 'Idź wzdłuż całego przewodu: obejmy, zgięcia, dławnice.',
      hands: 'Odłącz każdy odbiornik, zmierz omy obwodu, podłącz z powrotem. Gdzie omy skoczą, usterka jest za tym złączem.',
    },
  },
  mends: {
    'other-supply': {
      title: m => `Odłącz inny zasilacz${m.branch && ` od obwodu ${m.branch}`}`,
      points: [
        'Wyłączyła go i zabezpieczyła osoba upoważniona.',
        'Połączenie między nimi usunięto albo rozdziela je moduł separujący.',
        'Oba zasilania są oznaczone tam, gdzie się spotykają.',
      ],
      done: 'Odłączony, zablokowany',
    },
    'wrong-way': {
      title: m => `Doprowadź do porządku połączenia: ${m.load || m.branch}`,
      points: [
        'Plus i 0 V są tam, gdzie wskazują oznaczenia.',
        'Pasek diody jest od strony plusa. Diodę, która przewodziła, wymieniono.',
        'Zaciski są dokręcone.',
      ],
      done: 'Poprawione',
    },
    run: {
      title: m => `Napraw odcinek ${m.run}${m.branch && ` obwodu ${m.branch}`}`,
      points: [
        'Przewód jest wymieniony albo uszkodzony kawałek wycięty i połączony w puszce.',
        'Krawędź, zgięcie lub obejma, która go zużyła, jest znaleziona i usunięta.',
        STRAIN_RELIEF,
        NOTHING_LEFT,
      ],
      done: 'Naprawione i osłonięte',
    },
    load: {
      title: m => `Wymień ${m.load}`,
      points: [
        'Nowy ma to samo napięcie i moc.',
        'Złącza są suche, styki proste, uszczelka na miejscu.',
        'Dioda gasząca, jeśli jest, jest we właściwym kierunku.',
        STRAIN_RELIEF,
      ],
      done: 'Wymienione, założone',
    },
    'no-mains': {
      title: 'Doprowadź do porządku sieć zasilacza',
      points: [
        MAINS_SIDE,
        'Wiadomo, dlaczego otworzył się jego wyłącznik lub bezpiecznik, i jest to naprawione.',
        'Łącznik główny i jego zaciski są dobre, sprawdzone przez tę osobę.',
        'Zasilacz jest nadal wyłączony i zablokowany na dalszy ciąg.',
      ],
      done: 'Sieć jest w porządku',
    },
    'supply-dead': {
      title: 'Wymień zasilacz 24 V albo usuń to, co go zatrzymuje',
      points: [
        MAINS_SIDE,
        'Nowy ma to samo napięcie i nie mniejszy prąd.',
        'Przewody wyjściowe są dokręcone, + i 0 V niezamienione.',
        COOLING,
      ],
      done: 'Zasilacz w porządku',
    },
    supply: {
      title: 'Doprowadź zasilacz do porządku',
      points: [MAINS_SIDE, 'Nastawa, prąd znamionowy i obciążenie pasują do siebie.', 'Zaciski wyjściowe są dokręcone.', COOLING],
      done: 'Zasilacz w porządku',
    },
    'device-open': {
      title: m => `Ustal, dlaczego zabezpieczenie${m.branch && ` obwodu ${m.branch}`} jest otwarte`,
      points: [
        'Nic w obwodzie nie jest uszkodzone, mokre ani gorące.',
        'Jego odbiorniki razem mieszczą się w prądzie znamionowym.',
        'Zabezpieczenie jest sprawne, o właściwym prądzie, zaciski dokręcone.',
        'Zużyte zabezpieczenie jest wymienione na takie samo.',
      ],
      done: 'Przyczyna usunięta',
    },
    branch: {
      title: m => `Usuń usterkę${m.branch && ` w obwodzie ${m.branch}`}`,
      points: [
        'Co było uszkodzone, jest wymienione lub wycięte: przewód, złącze lub odbiornik.',
        'Co je zużyło, jest usunięte: krawędź, zgięcie, obejma, wilgoć.',
        'Zaciski są dokręcone, odciążka trzyma.',
        NOTHING_LEFT,
      ],
      done: 'Naprawione i osłonięte',
    },
  },
  strainRelief: { fixed: STRAIN_RELIEF, moving: 'Odciążka trzyma, a łuk jest szeroki na całej drodze.' },
}
