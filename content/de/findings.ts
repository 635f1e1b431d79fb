// German faults, findings and mends.
import type { Sentences } from '../words.ts'

const STRAIN_RELIEF = 'Die Zugentlastung hält.'
const NOTHING_LEFT = 'Kein Drähtchen, Span oder Werkzeug bleibt zurück.'
const MAINS_SIDE = 'Die Netzseite ist nicht als spannungsfrei festgestellt: dort arbeitet nur eine Elektrofachkraft.'
const COOLING = 'Die Kühlschlitze sind frei.'

export const findings: Sentences['findings'] = {
  faults: {
    'short-to-zero': '24-V-Ader gegen 0-V-Ader',
    'short-to-earth': '24-V-Ader gegen Erde',
    'load-short': 'Kurzschluss im Verbraucher',
    short: 'Kurzschluss: gegen 0 V, gegen Erde oder im Verbraucher',
    overload: 'Zu viel Strom gezogen',
    'in-rush': 'Zu viel auf einmal eingeschaltet',
    'open-plus': '24-V-Ader unterbrochen',
    'open-zero': '0-V-Ader unterbrochen',
    'poor-joint': 'Schlechte Klemmstelle: lose, schmutzig oder verbrannt',
    swapped: 'Adern vertauscht',
    diode: 'Löschdiode durchgeschlagen oder verkehrt herum',
    intermittent: 'Kurzschluss, der kommt und geht',
    backfeed: 'Von anderswo eingespeiste Spannung',
    'device-open': 'Schutzgerät ist offen',
    'supply-low': 'Netzteil gibt zu wenig Spannung',
    'supply-dead': 'Netzteil gibt nichts',
    'no-mains': 'Netzteil hat kein Netz',
  },
  title: {
    noMains: 'Finde heraus, warum das Netzteil kein Netz hat',
    deviceOpen: branch =>
      branch ? `Sieh nach dem Schutzgerät von Abzweig ${branch}: es ist offen` : 'Sieh nach den Schutzgeräten: eines ist offen',
    at: (run, metres, past) => `Geh zu Leitung ${run} und sieh nach, bei ${metres} ${past}`,
    stretch: (run, from, to, past) => `Geh zu Leitung ${run} und sieh nach, von ${from} bis ${to} ${past}`,
    pastCabinet: 'hinter den Schrankklemmen',
    pastJunction: junction => `hinter Klemmstelle ${junction}`,
    run: (run, branch) => `Geh zu Leitung ${run}${branch && ` von Abzweig ${branch}`} und sieh nach`,
    load: (load, junction) => `Geh zu ${load}${junction && ` an Klemmstelle ${junction}`} und sieh nach`,
    branch: branch => `Geh Abzweig ${branch} ab, vom Schaltschrank bis zu den Verbrauchern`,
    supply: 'Sieh nach dem 24-V-Netzteil und seinen Klemmen',
  },
  doubt: 'Am wahrscheinlichsten, nicht bewiesen.',
  inMoving: 'In der bewegten Leitung.',
  inFixed: 'In der festen Leitung.',
  how: {
    comesAndGoes: {
      look: 'Such, wo sie sich biegt und reibt, auch einen halben Meter über beide Enden hinaus.',
      hands: 'Häng das Messgerät an ihr nahes Ende und bieg sie Stück für Stück: Fallen die Ohm, ist dort die Stelle.',
    },
    wrongWay: {
      look: 'Vergleich Plus und 0 V mit den Zeichen darauf, und den Ring der Diode: Er zeigt nach Plus.',
      hands: 'Zieh den Stecker und miss die Diode in beiden Richtungen: Nur eine darf leiten.',
    },
    tooMuch: {
      look: 'Such Hitze, einen klemmenden Läufer, ein Teil mit falscher Leistung.',
      hands: 'Dreh ihn von Hand und vergleich seine Ohm mit dem Typenschild.',
    },
    otherSupply:
      'Such ein zweites Netzteil, ein Puffermodul oder eine Verbindung zu einem anderen Abzweig oder einer anderen Maschine. Ist es aus und gesichert, bestätige.',
    handsOff: 'Nur ansehen: Spannungsfreiheit ist nicht festgestellt.',
    noMains: 'Sieh nach dem Hauptschalter und dem vorgeschalteten LS-Schalter. Abdeckungen bleiben zu, außer für Elektrofachkräfte.',
    deviceOpen: 'Es hat aus einem Grund geöffnet. Sieh seinen Abzweig an, bevor es wieder geschlossen wird.',
    supplyDead: 'Netz ist da, aber es kommt nichts heraus. Such Brandspuren, lose Ausgangsleitungen und verdeckte Kühlschlitze.',
    supply: 'Sieh nach seiner Einstellung, seinen Ausgangsleitungen und was daran hängt.',
    openRun: {
      look: 'Sieh an beiden Enden nach loser oder gebrochener Ader, dann entlang nach einer Schnitt- oder Quetschstelle.',
      hands: 'Zieh an jeder Ader.',
    },
    run: {
      look: 'Such eine durchgescheuerte, gequetschte, geschnittene oder heiße Stelle, auch einen halben Meter über beide Enden hinaus.',
      hands: 'Schieb Schellen beiseite.',
    },
    load: {
      look: 'Such Nässe, Brandspuren und verbogene Stifte.',
      hands:
        'Zieh den Stecker und sieh in Stecker und Buchse. Ein Kurzschluss innen ist nicht zu sehen: Miss Ohm an seinen eigenen Stiften.',
    },
    branch: {
      look: 'Folge der ganzen Leitung: Schellen, Biegungen, Verschraubungen.',
      hands:
        'Zieh jeden Verbraucher ab, miss die Ohm des Abzweigs, steck ihn wieder an. Wo sie hochspringen, liegt der Fehler hinter diesem Stecker.',
    },
  },
  mends: {
    'other-supply': {
      title: m => `Trenne das andere Netzteil${m.branch && ` von Abzweig ${m.branch}`}`,
      points: [
        'Es ist aus und gesichert, durch eine dazu befugte Person.',
        'Die Verbindung ist entfernt, oder ein Entkopplungsmodul trennt die beiden.',
        'Beide Einspeisungen sind gekennzeichnet, wo sie sich treffen.',
      ],
      done: 'Getrennt und gesichert',
    },
    'wrong-way': {
      title: m => `Bring die Anschlüsse von ${m.load || m.branch} in Ordnung`,
      points: [
        'Plus und 0 V sind dort, wo die Zeichen sie verlangen.',
        'Der Ring der Diode zeigt nach Plus. Eine Diode, die geleitet hat, ist ersetzt.',
        'Die Klemmen sind fest.',
      ],
      done: 'In Ordnung gebracht',
    },
    run: {
      title: m => `Setze Leitung ${m.run}${m.branch && ` von Abzweig ${m.branch}`} instand`,
      points: [
        'Die Leitung ist ersetzt, oder die schadhafte Stelle herausgeschnitten und in einer Dose verbunden.',
        'Die Kante, Biegung oder Schelle, die sie beschädigt hat, ist gefunden und beseitigt.',
        STRAIN_RELIEF,
        NOTHING_LEFT,
      ],
      done: 'Instand und abgedeckt',
    },
    load: {
      title: m => `Ersetze ${m.load}`,
      points: [
        'Der neue hat dieselbe Spannung und Leistung.',
        'Stecker und Buchse sind trocken, Stifte gerade, Dichtung am Platz.',
        'Die Löschdiode, falls vorhanden, ist richtig herum.',
        STRAIN_RELIEF,
      ],
      done: 'Ersetzt und montiert',
    },
    'no-mains': {
      title: 'Bring das Netz des Netzteils in Ordnung',
      points: [
        MAINS_SIDE,
        'Bekannt und behoben ist, warum sein LS-Schalter oder seine Sicherung geöffnet hat.',
        'Hauptschalter und Klemmen sind in Ordnung, von dieser Person geprüft.',
        'Das Netzteil ist für das Folgende noch aus und verschlossen.',
      ],
      done: 'Netz ist in Ordnung',
    },
    'supply-dead': {
      title: 'Ersetze das 24-V-Netzteil oder behebe, was es hindert',
      points: [
        MAINS_SIDE,
        'Das neue hat dieselbe Spannung und nicht weniger Strom.',
        'Ausgangsleitungen sind fest, + und 0 V nicht vertauscht.',
        COOLING,
      ],
      done: 'Netzteil in Ordnung',
    },
    supply: {
      title: 'Bring das Netzteil in Ordnung',
      points: [MAINS_SIDE, 'Einstellung, Bemessung und Last passen zueinander.', 'Die Ausgangsklemmen sind fest.', COOLING],
      done: 'Netzteil in Ordnung',
    },
    'device-open': {
      title: m => `Finde, warum das Schutzgerät${m.branch && ` von Abzweig ${m.branch}`} offen ist`,
      points: [
        'Nichts im Abzweig ist beschädigt, nass oder heiß.',
        'Seine Verbraucher bleiben zusammen unter seinem Bemessungsstrom.',
        'Das Schutzgerät ist heil, richtig bemessen, seine Klemmen fest.',
        'Ein verschlissenes Schutzgerät ist durch eines gleicher Art ersetzt.',
      ],
      done: 'Ursache ist behoben',
    },
    branch: {
      title: m => `Behebe den Fehler${m.branch && ` in Abzweig ${m.branch}`}`,
      points: [
        'Was beschädigt war, ist ersetzt oder herausgeschnitten: Leitung, Stecker oder Verbraucher.',
        'Was es beschädigt hat, ist beseitigt: Kante, Biegung, Schelle, Nässe.',
        'Klemmen sind fest, die Zugentlastung hält.',
        NOTHING_LEFT,
      ],
      done: 'Instand und abgedeckt',
    },
  },
  strainRelief: { fixed: STRAIN_RELIEF, moving: 'Die Zugentlastung hält, und der Bogen ist über den ganzen Weg weit.' },
}
