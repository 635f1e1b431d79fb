// French faults, findings and mends.
import type { Sentences } from '../words.ts'

const STRAIN_RELIEF = 'La décharge de traction tient.'
const NOTHING_LEFT = 'Aucun brin, copeau ni outil n’est oublié.'
const MAINS_SIDE = 'L’absence de tension n’est pas vérifiée côté réseau : seule une personne habilitée y travaille.'
const COOLING = 'Les ouïes de refroidissement sont libres.'

export const findings: Sentences['findings'] = {
  faults: {
    'short-to-zero': 'Fil 24 V contre fil 0 V',
    'short-to-earth': 'Fil 24 V contre la terre',
    'load-short': 'Court-circuit dans le récepteur',
    short: 'Court-circuit : vers 0 V, vers la terre ou dans un récepteur',
    overload: 'Trop de courant absorbé',
    'in-rush': 'Trop de récepteurs mis en marche à la fois',
    'open-plus': 'Fil 24 V coupé',
    'open-zero': 'Fil 0 V coupé',
    'poor-joint': 'Mauvais contact : desserré, sale ou brûlé',
    swapped: 'Conducteurs inversés',
    diode: 'Diode d’écrêtage claquée ou à l’envers',
    intermittent: 'Court-circuit qui va et vient',
    backfeed: 'Tension venue d’ailleurs',
    'device-open': 'Protection ouverte',
    'supply-low': 'L’alimentation donne trop peu de tension',
    'supply-dead': 'L’alimentation ne donne rien',
    'no-mains': 'L’alimentation n’a pas de réseau',
  },
  title: {
    noMains: 'Chercher pourquoi l’alimentation n’a pas de réseau',
    deviceOpen: branch =>
      branch ? `Regarder la protection du départ ${branch} : elle est ouverte` : 'Regarder les protections : l’une est ouverte',
    at: (run, metres, past) => `Aller voir le tronçon ${run}, à ${metres} ${past}`,
    stretch: (run, from, to, past) => `Aller voir le tronçon ${run}, de ${from} à ${to} ${past}`,
    pastCabinet: 'après les bornes de l’armoire',
    pastJunction: junction => `après la jonction ${junction}`,
    run: (run, branch) => `Aller voir le tronçon ${run}${branch && ` du départ ${branch}`}`,
    load: (load, junction) => `Aller voir ${load}${junction && ` à la jonction ${junction}`}`,
    branch: branch => `Aller voir le long du départ ${branch}, de l’armoire aux récepteurs`,
    supply: 'Regarder l’alimentation 24 V et ses bornes',
  },
  doubt: 'Le plus probable, pas prouvé.',
  inMoving: 'Dans le câble mobile.',
  inFixed: 'Dans le câble fixe.',
  how: {
    comesAndGoes: {
      look: 'Regarder où il plie et frotte, un demi-mètre au-delà de chaque bout aussi.',
      hands: 'Accrocher l’appareil à son bout proche et le plier morceau par morceau : là où les ohms baissent est l’endroit.',
    },
    wrongWay: {
      look: 'Comparer le plus et le 0 V à ses repères, et la bague de la diode, tournée vers le plus.',
      hands: 'Le débrancher et mesurer la diode dans les deux sens : un seul peut conduire.',
    },
    tooMuch: {
      look: 'Chercher la chaleur, un rotor bloqué et une pièce de mauvaise puissance.',
      hands: 'Le tourner à la main et comparer ses ohms à sa plaque.',
    },
    otherSupply:
      'Chercher une seconde alimentation, un module tampon ou un lien vers un autre départ ou une autre machine. Une fois coupée et condamnée, confirmer.',
    handsOff: 'Regarder seulement : l’absence de tension n’est pas vérifiée.',
    noMains: 'Regarder l’interrupteur général et le disjoncteur en amont. Les capots restent fermés, sauf pour une personne habilitée.',
    deviceOpen: 'Elle s’est ouverte pour une raison. Regarder le long de son départ avant de la refermer.',
    supplyDead: 'Le réseau est là, mais rien ne sort. Chercher brûlures, fils de sortie desserrés et ouïes bouchées.',
    supply: 'Regarder son réglage, ses fils de sortie et ce qui y est raccordé.',
    openRun: {
      look: 'Chercher aux deux bouts un fil desserré ou rompu, puis le long du câble une coupure ou un écrasement.',
      hands: 'Tirer sur chaque fil.',
    },
    run: {
      look: 'Chercher un endroit usé, écrasé, coupé ou chaud, aussi un demi-mètre au-delà de chaque bout.',
      hands: 'Écarter les colliers.',
    },
    load: {
      look: 'Chercher humidité, brûlures et broches tordues.',
      hands:
        'Le débrancher et regarder dans les deux connecteurs. Un court-circuit interne ne se voit pas : mesurer les ohms entre ses broches.',
    },
    branch: {
      look: 'Suivre tout son câble : colliers, courbes, presse-étoupes.',
      hands:
        'Débrancher chaque récepteur, mesurer les ohms du départ, le rebrancher. Là où ils bondissent, le défaut est après ce connecteur.',
    },
  },
  mends: {
    'other-supply': {
      title: m => `Retirer l’autre alimentation${m.branch && ` du départ ${m.branch}`}`,
      points: [
        'Elle est coupée et condamnée par une personne autorisée.',
        'Le lien entre les deux est retiré, ou un module de découplage les sépare.',
        'Les deux arrivées sont repérées là où elles se rejoignent.',
      ],
      done: 'Retirée et condamnée',
    },
    'wrong-way': {
      title: m => `Remettre en ordre le câblage de ${m.load || m.branch}`,
      points: [
        'Le plus et le 0 V sont là où ses repères les veulent.',
        'La bague de la diode est tournée vers le plus. Une diode qui a conduit est changée.',
        'Ses bornes sont serrées.',
      ],
      done: 'Corrigé',
    },
    run: {
      title: m => `Réparer le tronçon ${m.run}${m.branch && ` du départ ${m.branch}`}`,
      points: [
        'Le câble est changé, ou le morceau abîmé coupé et raccordé dans une boîte.',
        'L’arête, la courbe ou le collier qui l’a usé est trouvé et supprimé.',
        STRAIN_RELIEF,
        NOTHING_LEFT,
      ],
      done: 'Réparé et couvert',
    },
    load: {
      title: m => `Changer ${m.load}`,
      points: [
        'Le nouveau a la même tension et la même puissance.',
        'Les connecteurs sont secs, les broches droites, le joint en place.',
        'La diode d’écrêtage, s’il y en a une, est dans le bon sens.',
        STRAIN_RELIEF,
      ],
      done: 'Changé et monté',
    },
    'no-mains': {
      title: 'Remettre en ordre le réseau de l’alimentation',
      points: [
        MAINS_SIDE,
        'On sait pourquoi son disjoncteur ou son fusible s’est ouvert, et c’est corrigé.',
        'L’interrupteur général et ses bornes sont sains, vérifiés par cette personne.',
        'L’alimentation reste coupée et condamnée pour la suite.',
      ],
      done: 'Réseau remis en ordre',
    },
    'supply-dead': {
      title: 'Changer l’alimentation 24 V, ou réparer ce qui l’arrête',
      points: [
        MAINS_SIDE,
        'La nouvelle a la même tension et au moins le même courant.',
        'Les fils de sortie sont serrés, + et 0 V non inversés.',
        COOLING,
      ],
      done: 'Alimentation en ordre',
    },
    supply: {
      title: 'Remettre l’alimentation en ordre',
      points: [MAINS_SIDE, 'Réglage, calibre et charge s’accordent.', 'Les bornes de sortie sont serrées.', COOLING],
      done: 'Alimentation en ordre',
    },
    'device-open': {
      title: m => `Chercher pourquoi la protection${m.branch && ` du départ ${m.branch}`} est ouverte`,
      points: [
        'Rien dans le départ n’est abîmé, mouillé ni chaud.',
        'Ses récepteurs ensemble restent sous son courant assigné.',
        'La protection est saine, du bon calibre, ses bornes serrées.',
        'Une protection usée est remplacée par une du même genre.',
      ],
      done: 'Cause corrigée',
    },
    branch: {
      title: m => `Réparer le défaut${m.branch && ` du départ ${m.branch}`}`,
      points: [
        'Ce qui était abîmé est changé ou coupé : câble, connecteur ou récepteur.',
        'Ce qui l’a usé est supprimé : arête, courbe, collier, humidité.',
        'Les bornes sont serrées, la décharge de traction tient.',
        NOTHING_LEFT,
      ],
      done: 'Réparé et couvert',
    },
  },
  strainRelief: { fixed: STRAIN_RELIEF, moving: 'La décharge de traction tient, et la courbe est large sur toute la course.' },
}
