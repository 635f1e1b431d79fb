// German: why a step is asked for.
import { factsWith } from '../shared/facts.ts'
import type { Facts } from '../shared/types.ts'
import type { Sentences } from '../words.ts'

const { of, yes, metres } = factsWith(',')
const branches = (f: Facts): string => {
  const list = of(f, 'branches').split(', ')
  const more = Number(f['count'] ?? 0) - list.length
  return `${list.length + Math.max(0, more) > 1 ? 'Abzweige' : 'Abzweig'} ${list.join(', ')}${more > 0 ? ` und ${more} weitere` : ''}`
}

export const whys: Sentences['whys'] = {
  recorded: () => 'So wurde damals gefragt.',
  'mains-first': () => 'Ohne Netz arbeitet kein 24-V-Netzteil. Die Lampe sagt es ohne Werkzeug.',
  'lamp-tells': () => 'Die Lampe des Netzteils unterscheidet Überlast, keine Ausgabe und gesund in fünf Sekunden.',
  drop: f => `Der Fehlerstrom lässt nur am eigenen Schutzgerät Millivolt abfallen. ${of(f, 'branches')} haben ${of(f, 'p')} von 100.`,
  'supply-off-first': () => 'Ohm und gelöste Adern brauchen einen spannungsfreien Stromkreis.',
  'prove-dead-first': () => 'Nur drei Messungen weisen Spannungsfreiheit nach. Eine dunkle Lampe beweist nichts.',
  'prove-dead-again': () => 'Seit der letzten Feststellung kann Spannung wiedergekehrt sein.',
  'held-volts': f =>
    `Das Netzteil gibt an seiner Grenze ${of(f, 'ampere')} A: Volt an den Schienen verraten die Ohm dessen, was es niederhält.`,
  'device-past': f => `Bei offenem Schutzgerät sieht eine Messung an Abzweig ${of(f, 'branch')} nur dessen eigene Leitungen.`,
  group: f =>
    `${branches(f)}: zusammen ${of(f, 'p')} von 100. Eine Messung entlastet oder benennt ${Number(f['count']) === 1 ? 'ihn' : 'sie'}.`,
  likeliest: f =>
    `Abzweig ${of(f, 'branch')} hat ${of(f, 'p')} von 100${f['metres'] === undefined ? '' : `: ${metres(f['metres'])} Leitung${yes(f['moving']) ? ', ein Teil davon bewegt' : ''}`}.`,
  narrow: f => `Das engt die Stelle in Abzweig ${of(f, 'branch')} von ${metres(f['before'])} auf etwa ${metres(f['after'])} ein.`,
  kind: f => `Das sagt, welche Fehlerart Abzweig ${of(f, 'branch')} hat: gegen 0 V, gegen Erde oder im Verbraucher.`,
  current: f => `Der Strom in Abzweig ${of(f, 'branch')} macht aus Volt Ohm: er muss bekannt sein.`,
  inject: f =>
    `Millivolt bei bekanntem Strom orten den Fehler in Abzweig ${of(f, 'branch')} auf ${metres(f['after'])}, Ohm nur auf ${metres(f['ohm'] ?? f['before'])}.`,
  'trace-volts': f =>
    `Hinter einer Unterbrechung in Abzweig ${of(f, 'branch')} ist keine Spannung. Dieser Abzweig hat ${of(f, 'p')} von 100.`,
  'trace-ohms': f => `Verbraucher hinter einer Unterbrechung fehlen in den Ohm. Abzweig ${of(f, 'branch')} hat ${of(f, 'p')} von 100.`,
  'live-trial': f =>
    `Die Ohm stimmen, also zeigt sich der Fehler nur unter Spannung. Mit ${of(f, 'count')} geschlossenen Schutzgeräten zeigt das Netzteil, auf welcher Seite er liegt.`,
  'watch-moving': f =>
    `Ein Fehler, der kommt und geht, versteckt sich in Ruhe. Bewege, was sich an Abzweig ${of(f, 'branch')} bewegt, und sieh auf die Anzeige: er hat ${of(f, 'p')} von 100.`,
  'other-supply': () =>
    'Bei ausgeschaltetem Netzteil bleibt Spannung: ein anderes Netzteil speist einen Abzweig oder die Sammelschiene. Die des Abzweigs verschwindet, sobald dessen Schutzgerät offen ist.',
  'other-supply-branch': () => 'Spannung hinter einem offenen Schutzgerät kommt von einem anderen Netzteil.',
  'zero-leads': f => `Abgeglichene Messleitungen engen die Stelle von ${metres(f['before'])} auf etwa ${metres(f['after'])} ein.`,
  'go-look': f => `Diese Stelle hat ${of(f, 'p')} von 100. Nachsehen dauert etwa ${of(f, 'seconds')} s, weniger als weiter zu messen.`,
  'look-along': f => `Zu messen ist nichts mehr. Abzweig ${of(f, 'branch')} wird von Ende zu Ende abgesucht.`,
  'put-back': () => 'Was zum Messen geöffnet oder abgezogen wurde, kommt zurück, wie es war.',
  'check-mend': f => `Saubere Ohm in Abzweig ${of(f, 'branch')} zeigen in Ruhe keinen Kurzschluss, bevor Spannung anliegt.`,
  'prove-restored': () => 'Nur eine stetige Lampe und die richtige Spannung beweisen, dass die Steuerspannung zurück ist.',
  'device-look': f => `Ein Schutzgerät kann von selbst geöffnet haben. Abzweig ${of(f, 'branch')} wird dann falsch gemessen.`,
  'device-open': f =>
    `Dort war nichts. War das Schutzgerät von Abzweig ${of(f, 'branch')} nicht offen, so wurde ein anderer Abzweig gemessen.`,
  'after-energising': f => `Seit dem letzten Blick war Spannung da. Das Schutzgerät von Abzweig ${of(f, 'branch')} kann geöffnet haben.`,
  'load-aside': f => `Verbraucher ${of(f, 'load')} liegt quer über den Adern von Abzweig ${of(f, 'branch')} und verfälscht die Messung.`,
  'switch-on': () => 'Der nächste Blick oder die nächste Messung braucht das eingeschaltete Netzteil.',
  'off-to-look': () => 'Niemand geht an ein gespeistes Kabel: wird es bewegt, können Verbraucher anlaufen.',
  repeat: () => 'Der letzte Messwert passt schlecht zu denen davor. Ein zweiter klärt es.',
  'in-rush': f =>
    `Alles auf einmal nähme im ersten Augenblick ${of(f, 'ampere')} A auf; das Netzteil gibt ${of(f, 'limit')} A. Dieser kommt später.`,
  pause: f => `Warte ${of(f, 'seconds')} s nach dem vorigen: sein Einschaltstrom muss erst vorbei sein.`,
}
