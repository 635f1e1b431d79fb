// German: a step in words.
import type { Sentences } from '../words.ts'

const UNITS = { volt: 'Volt', ohm: 'Ohm' } as const
const CLOSE_ONCE = 'Schließ es einmal. Öffnet es wieder, lass es offen.'
const TIGHTEN = 'Zieh sie fest und zieh daran zur Probe.'
const OWN_SWITCH = 'Benutze den eigenen Schalter oder LS-Schalter der Maschine. Nur für dort Befugte.'

export const steps: Sentences['steps'] = {
  acts: {
    'supply on': { title: 'Schalte das 24-V-Netzteil ein', how: `Nimm das Schloss ab. ${OWN_SWITCH}`, done: 'Netzteil ist ein' },
    'supply off': {
      title: 'Schalte das 24-V-Netzteil aus und verschließe es',
      how: `${OWN_SWITCH} Häng das Schloss ein, behalte den Schlüssel.`,
      done: 'Aus und verschlossen',
    },
    'prove-dead': {
      title: 'Stelle die Spannungsfreiheit fest',
      how: 'Messgerät auf V: prüfe es an einer Batterie. Miss 1, 2 und 3, DC und AC. Prüfe es danach noch einmal.',
      done: 'An allen drei keine',
    },
    'zero-leads': {
      title: 'Halte die Spitzen zusammen und gleiche das Messgerät ab',
      how: 'Drehschalter auf Ω. Spitzen fest zusammen. Drück die Nulltaste. Warte, bis die Anzeige steht.',
      done: 'Abgeglichen, zeigt 0',
    },
    'fuse open': {
      title: a => `Zieh die Sicherung von Abzweig ${a.branch}`,
      how: 'Zieh sie ohne Last. Behalte sie zur Hand.',
      done: a => `Sicherung ${a.branch} ist raus`,
    },
    'fuse closed': {
      title: a => `Setze die Sicherung von Abzweig ${a.branch} ein`,
      how: 'Setze sie einmal ein, gleiche Größe und Art. Brennt sie wieder durch, lass sie draußen.',
      done: a => `Sicherung ${a.branch} ist drin`,
    },
    'breaker open': {
      title: a => `Öffne den LS-Schalter von Abzweig ${a.branch}`,
      how: 'Schalte ihn aus. Lass die anderen, wie sie sind.',
      done: a => `LS-Schalter ${a.branch} offen`,
    },
    'breaker closed': {
      title: a => `Schließe den LS-Schalter von Abzweig ${a.branch}`,
      how: 'Schließ ihn einmal. Öffnet er wieder, lass ihn offen.',
      done: a => `LS-Schalter ${a.branch} zu`,
    },
    'device open': {
      title: a => `Öffne das Schutzgerät von Abzweig ${a.branch}`,
      how: 'Schalte den LS-Schalter aus, oder zieh die Sicherung. Lass die anderen, wie sie sind.',
      done: a => `Schutzgerät ${a.branch} offen`,
    },
    'device closed': {
      title: a => `Schließe das Schutzgerät von Abzweig ${a.branch}`,
      how: CLOSE_ONCE,
      done: a => `Schutzgerät ${a.branch} zu`,
    },
    'load plugged': {
      title: a => `Steck ${a.load} in Abzweig ${a.branch} an`,
      how: 'Steck ihn dort an, wo er war.',
      done: 'Er ist angesteckt',
    },
    'load unplugged': {
      title: a => `Zieh ${a.load} in Abzweig ${a.branch} ab`,
      how: 'Zieh den Stecker gerade ab. Halte ihn von Nässe und Schmutz fern.',
      done: 'Er ist abgezogen',
    },
    'run joined': {
      title: a => `Verbinde Leitung ${a.run} von Abzweig ${a.branch}${a.at}`,
      how: 'Klemm beide Adern an, wie sie waren. Zieh an jeder zur Probe.',
      done: a => `${a.run} ist verbunden`,
    },
    'run opened': {
      title: a => `Trenne Leitung ${a.run} von Abzweig ${a.branch}${a.at} auf`,
      how: 'Klemm beide Adern ab, + und 0 V. Kennzeichne sie. Halte die Enden auseinander.',
      done: a => `${a.run} ist aufgetrennt`,
    },
    'bus joined': {
      title: 'Verbinde die Ausgangsleitung des Netzteils wieder mit der Schiene',
      how: TIGHTEN,
      done: 'Ausgang ist verbunden',
    },
    'bus opened': {
      title: 'Trenne die Ausgangsleitung des Netzteils von der Schiene',
      how: 'Klemm die + Leitung am Netzteil ab. Deck ihr Ende ab.',
      done: 'Ausgang ist getrennt',
    },
    'bond joined': { title: 'Verbinde die Brücke von 0 V zur Erde wieder', how: TIGHTEN, done: 'Erdbrücke ist verbunden' },
    'bond opened': {
      title: 'Trenne die Brücke von 0 V zur Erde',
      how: 'Klemm die Brücke an 0 V ab. Solange sie fehlt, wird nichts eingeschaltet.',
      done: 'Erdbrücke ist getrennt',
    },
    'inject on': {
      title: a => `Schließ die Stromquelle an Abzweig ${a.branch} an`,
      how: a =>
        `Schutzgerät offen. Plus an ${a.branch} +, Rückleiter an ${a.into === 'earth' ? 'Erde' : `${a.branch} 0 V`}. Nimm sie nach dem Messen ab.`,
      done: a => `Quelle speist ${a.branch}`,
    },
    'inject off': {
      title: a => `Trenne die Stromquelle von Abzweig ${a.branch}`,
      how: 'Schalte erst die Quelle aus, dann nimm ihre Leitungen ab.',
      done: 'Quelle ist aus und ab',
    },
  },
  points: {
    earth: 'die Erdklemme',
    earthShort: 'Erde',
    supplyShort: 'Netzteil',
    busShort: 'Schiene',
    supply: plus => `Netzteil, Klemme ${plus ? '+' : '0 V'}`,
    bus: plus => `${plus ? '24' : '0'}-V-Schiene`,
    branch: (branch, plus) => `Abzweig ${branch}, Abgangsklemme ${plus ? '+' : '0 V'}`,
    run: (run, plus) => `Leitung ${run}, schrankseitiges Ende, ${plus ? '24' : '0'}-V-Ader`,
    junction: (junction, plus) => `Klemmstelle ${junction}, ${plus ? '24 V' : '0 V'}`,
  },
  at: { cabinet: ' am Schaltschrank', junction: junction => ` an Klemmstelle ${junction}` },
  read: {
    amp: branch => `Miss Ampere in Abzweig ${branch}`,
    between: (meter, red, black) => `Miss ${UNITS[meter]}: ${red} gegen ${black}`,
    supply: meter => `Miss ${UNITS[meter]} an den Netzteilklemmen`,
    bus: meter => `Miss ${UNITS[meter]} an den Schienen`,
    branch: (meter, branch) => `Miss ${UNITS[meter]} an Abzweig ${branch}, Abgangsklemmen`,
    run: (meter, run, at) => `Miss ${UNITS[meter]} in Leitung ${run} hinein, am schrankseitigen Ende${at}`,
    junction: (meter, junction, branch) => `Miss ${UNITS[meter]} an Klemmstelle ${junction} von Abzweig ${branch}`,
    series: 'Messgerät in Reihe mit der Quelle, Leitungen in A und COM. Danach kommt die rote Leitung zurück in VΩ.',
    clamp: 'Gleiche die Zange ab. Leg sie nur um die + Ader, Pfeil vom Netzteil weg.',
    probes: (red, black) => `Rot an: ${red}. Schwarz an: ${black}.`,
    waitOhm: 'Warte, bis die Anzeige steht.',
    waitVolt: 'Drehschalter auf V, Gleichspannung.',
  },
  look: {
    device: (branch, kind) => {
      const names = { fuse: 'die Sicherung', breaker: 'den LS-Schalter', device: 'das Schutzgerät' }
      return `Sieh ${names[kind]} von Abzweig ${branch} an`
    },
    supplyLamp: 'Sieh die Lampe des Netzteils an',
    mainsLamp: 'Sieh nach, ob das Netzteil Netz hat',
    deviceHow: 'Nur ansehen. Nicht schalten.',
    lampHow: 'Nur ansehen. Abdeckungen bleiben zu.',
  },
}
