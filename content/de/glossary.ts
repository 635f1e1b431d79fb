// German: the few words of the trade that steps use.
import type { Sentences } from '../words.ts'

export const glossary: Sentences['glossary'] = [
  ['Abzweig', 'Alles, was ein Schutzgerät im Schaltschrank speist.'],
  ['Schutzgerät', 'Leitungsschutzschalter (LS-Schalter), Sicherung oder elektronischer Schutz eines Abzweigs.'],
  ['Schiene', 'Die Schiene oder Brücke, die alle Schutzgeräte speist, und die, zu der alle 0 V zurückkommen.'],
  ['Abgangsklemmen', 'Wo ein Abzweig den Schaltschrank verlässt, hinter seinem Schutzgerät.'],
  ['Leitung', 'Ein Kabel von einer Klemmstelle zur nächsten: eine 24-V-Ader und eine 0-V-Ader.'],
  ['Schrankseitiges Ende', 'Das Ende einer Leitung, das näher am Schaltschrank liegt.'],
  ['Klemmstelle', 'Eine Dose, ein Stecker oder eine Klemme, wo Leitungen und Verbraucher zusammenkommen.'],
  ['Verbraucher', 'Wofür ein Abzweig da ist: Ventil, Sensor, Schütz, Lampe, Motor.'],
  ['Erdbrücke', 'Die Verbindung von 0 V zum Schutzleiter.'],
  ['Spannungsfrei festgestellt', 'Plus gegen 0 V, Plus gegen Erde, 0 V gegen Erde: alle zeigen nichts, mit geprüftem Messgerät.'],
  ['OL', 'Über dem Messbereich: offen oder viel zu groß.'],
  ['Stromquelle', 'Eine potentialfreie Speisung, in Strom und auf 24 V begrenzt, für einen Abzweig.'],
  ['Stromzange', 'Ein Messgerät, das den Strom um eine Ader herum misst, ohne sie aufzutrennen.'],
]
