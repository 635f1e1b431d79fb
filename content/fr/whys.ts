// French: why a step is asked for.
import { factsWith } from '../shared/facts.ts'
import type { Facts } from '../shared/types.ts'
import type { Sentences } from '../words.ts'

const { of, yes, metres } = factsWith(',')
const branches = (f: Facts): string => {
  const list = of(f, 'branches').split(', ')
  const more = Number(f['count'] ?? 0) - list.length
  return `${list.length + Math.max(0, more) > 1 ? 'Départs' : 'Départ'} ${list.join(', ')}${more > 0 ? ` et ${more} autres` : ''}`
}

export const whys: Sentences['whys'] = {
  recorded: () => 'C’est ce qui a été demandé alors.',
  'mains-first': () => 'Sans réseau, aucune alimentation 24 V ne marche. Le voyant le dit sans outil.',
  'lamp-tells': () => 'Le voyant de l’alimentation distingue surcharge, sortie nulle et bon état, en cinq secondes.',
  drop: f => `Le courant du défaut ne laisse des millivolts que sur sa propre protection. ${of(f, 'branches')} ont ${of(f, 'p')} sur 100.`,
  'supply-off-first': () => 'Les ohms et les conducteurs défaits demandent un circuit hors tension.',
  'prove-dead-first': () => 'Seules trois mesures prouvent l’absence de tension. Un voyant éteint ne prouve rien.',
  'prove-dead-again': () => 'La tension a pu revenir depuis la dernière vérification.',
  'held-volts': f => `L’alimentation donne ${of(f, 'ampere')} A à sa limite : les volts des barres disent les ohms de ce qui l’écrase.`,
  'device-past': f => `Protection ouverte, une mesure au départ ${of(f, 'branch')} ne voit que son propre câblage.`,
  group: f =>
    `${branches(f)} : en tout ${of(f, 'p')} sur 100. Une mesure ${Number(f['count']) === 1 ? 'l’écarte ou le désigne' : 'les écarte ou les désigne'}.`,
  likeliest: f =>
    `Le départ ${of(f, 'branch')} a ${of(f, 'p')} sur 100${f['metres'] === undefined ? '' : ` : ${metres(f['metres'])} de câble${yes(f['moving']) ? ', dont une partie mobile' : ''}`}.`,
  narrow: f => `Cela resserre le lieu dans le départ ${of(f, 'branch')} de ${metres(f['before'])} à environ ${metres(f['after'])}.`,
  kind: f => `Cela dit quel genre de défaut a le départ ${of(f, 'branch')} : vers 0 V, vers la terre ou dans un récepteur.`,
  current: f => `Le courant dans le départ ${of(f, 'branch')} change les volts en ohms : il faut le connaître.`,
  inject: f =>
    `Des millivolts à courant connu situent le défaut du départ ${of(f, 'branch')} à ${metres(f['after'])} près, les ohms à ${metres(f['ohm'] ?? f['before'])} seulement.`,
  'trace-volts': f =>
    `Après un conducteur coupé du départ ${of(f, 'branch')}, il n’y a plus de tension. Ce départ a ${of(f, 'p')} sur 100.`,
  'trace-ohms': f =>
    `Les récepteurs après un conducteur coupé manquent dans les ohms. Le départ ${of(f, 'branch')} a ${of(f, 'p')} sur 100.`,
  'live-trial': f =>
    `Les ohms sont bons, donc le défaut ne se voit que sous tension. Avec ${of(f, 'count')} protections fermées, l’alimentation dit de quel côté il est.`,
  'watch-moving': f =>
    `Un défaut qui va et vient se cache au repos. Bouger ce qui bouge du départ ${of(f, 'branch')} et regarder l’appareil : il a ${of(f, 'p')} sur 100.`,
  'other-supply': () =>
    'Il reste une tension, alimentation coupée : une autre alimentation nourrit un départ ou le jeu de barres. Celle d’un départ disparaît dès que sa protection est ouverte.',
  'other-supply-branch': () => 'Une tension après une protection ouverte vient d’une autre alimentation.',
  'zero-leads': f => `Des cordons mis à zéro resserrent le lieu de ${metres(f['before'])} à environ ${metres(f['after'])}.`,
  'go-look': f => `Ce lieu a ${of(f, 'p')} sur 100. Regarder prend environ ${of(f, 'seconds')} s, moins que mesurer encore.`,
  'look-along': f => `Il n’y a plus rien à mesurer. Le départ ${of(f, 'branch')} est parcouru d’un bout à l’autre.`,
  'put-back': () => 'Ce qui a été ouvert ou débranché pour mesurer revient comme c’était.',
  'check-mend': f =>
    `Des ohms nets dans le départ ${of(f, 'branch')} ne montrent aucun court-circuit au repos, avant la mise sous tension.`,
  'prove-restored': () => 'Seuls un voyant fixe et la bonne tension prouvent que la tension de commande est revenue.',
  'device-look': f => `Une protection a pu s’ouvrir d’elle-même. Le départ ${of(f, 'branch')} est alors mal mesuré.`,
  'device-open': f =>
    `Il n’y avait rien là. Si la protection du départ ${of(f, 'branch')} n’était pas ouverte, un autre départ a été mesuré.`,
  'after-energising': f => `Il y a eu tension depuis le dernier regard. La protection du départ ${of(f, 'branch')} a pu s’ouvrir.`,
  'load-aside': f => `Le récepteur ${of(f, 'load')} est entre les conducteurs du départ ${of(f, 'branch')} et fausse la mesure.`,
  'switch-on': () => 'Le prochain regard ou la prochaine mesure demande l’alimentation en marche.',
  'off-to-look': () => 'Personne ne s’approche d’un câble alimenté : en le bougeant, des charges peuvent démarrer.',
  repeat: () => 'La dernière mesure s’accorde mal aux précédentes. Une seconde tranche.',
  'in-rush': f =>
    `Tout à la fois prendrait ${of(f, 'ampere')} A au premier instant ; l’alimentation donne ${of(f, 'limit')} A. Celui-ci vient plus tard.`,
  pause: f => `Attendre ${of(f, 'seconds')} s après le précédent : son appel de courant doit d’abord passer.`,
}
