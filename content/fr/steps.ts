// French: a step in words.
import type { Sentences } from '../words.ts'

const UNITS = { volt: 'les volts', ohm: 'les ohms' } as const
const OWN_SWITCH = 'À l’interrupteur propre de la machine. Seulement pour qui y est autorisé.'

export const steps: Sentences['steps'] = {
  acts: {
    'supply on': {
      title: 'Mettre l’alimentation 24 V en marche',
      how: `Retirer le cadenas. ${OWN_SWITCH}`,
      done: 'Alimentation en marche',
    },
    'supply off': {
      title: 'Couper l’alimentation 24 V et la condamner',
      how: `${OWN_SWITCH} Poser le cadenas, garder la clé.`,
      done: 'Coupée et condamnée',
    },
    'prove-dead': {
      title: 'Vérifier l’absence de tension',
      how: 'Multimètre sur V : l’essayer sur une pile. Mesurer 1, 2 et 3, c.c. et c.a. L’essayer à nouveau.',
      done: 'Rien sur les trois',
    },
    'zero-leads': {
      title: 'Réunir les pointes et mettre le multimètre à zéro',
      how: 'Sélecteur sur Ω. Pointes bien serrées. Presser la touche de zéro. Attendre que l’affichage soit stable.',
      done: 'À zéro, il affiche 0',
    },
    'fuse open': {
      title: a => `Retirer le fusible du départ ${a.branch}`,
      how: 'Le retirer hors charge. Le garder sous la main.',
      done: a => `Fusible ${a.branch} retiré`,
    },
    'fuse closed': {
      title: a => `Poser le fusible du départ ${a.branch}`,
      how: 'Le poser une fois, même calibre et même type. S’il fond encore, le laisser dehors.',
      done: a => `Fusible ${a.branch} posé`,
    },
    'breaker open': {
      title: a => `Ouvrir le disjoncteur du départ ${a.branch}`,
      how: 'L’abaisser. Laisser les autres comme ils sont.',
      done: a => `Disjoncteur ${a.branch} ouvert`,
    },
    'breaker closed': {
      title: a => `Fermer le disjoncteur du départ ${a.branch}`,
      how: 'Le fermer une fois. S’il s’ouvre encore, le laisser ouvert.',
      done: a => `Disjoncteur ${a.branch} fermé`,
    },
    'device open': {
      title: a => `Ouvrir la protection du départ ${a.branch}`,
      how: 'Abaisser le disjoncteur, ou retirer le fusible. Laisser les autres comme elles sont.',
      done: a => `Protection ${a.branch} ouverte`,
    },
    'device closed': {
      title: a => `Fermer la protection du départ ${a.branch}`,
      how: 'La fermer une fois. Si elle s’ouvre encore, la laisser ouverte.',
      done: a => `Protection ${a.branch} fermée`,
    },
    'load plugged': {
      title: a => `Brancher ${a.load} dans le départ ${a.branch}`,
      how: 'Le brancher là où il était.',
      done: 'Il est branché',
    },
    'load unplugged': {
      title: a => `Débrancher ${a.load} dans le départ ${a.branch}`,
      how: 'Tirer droit le connecteur. Le tenir loin de l’humidité et de la saleté.',
      done: 'Il est débranché',
    },
    'run joined': {
      title: a => `Raccorder le tronçon ${a.run} du départ ${a.branch}${a.at}`,
      how: 'Raccorder les deux conducteurs comme avant. Tirer sur chacun pour l’essayer.',
      done: a => `Tronçon ${a.run} raccordé`,
    },
    'run opened': {
      title: a => `Ouvrir le tronçon ${a.run} du départ ${a.branch}${a.at}`,
      how: 'Défaire les deux conducteurs, + et 0 V. Les repérer. Tenir les bouts écartés.',
      done: a => `Tronçon ${a.run} ouvert`,
    },
    'bus joined': {
      title: 'Raccorder le fil de sortie de l’alimentation à la barre',
      how: 'Le serrer et tirer dessus.',
      done: 'Sortie raccordée',
    },
    'bus opened': {
      title: 'Ouvrir le fil de sortie de l’alimentation vers la barre',
      how: 'Défaire le fil + à l’alimentation. Couvrir son bout.',
      done: 'Sortie ouverte',
    },
    'bond joined': {
      title: 'Raccorder la liaison du 0 V à la terre',
      how: 'La serrer et tirer dessus.',
      done: 'Liaison terre raccordée',
    },
    'bond opened': {
      title: 'Ouvrir la liaison du 0 V à la terre',
      how: 'Défaire la liaison au 0 V. Rien n’est mis sous tension tant qu’elle manque.',
      done: 'Liaison terre ouverte',
    },
    'inject on': {
      title: a => `Brancher la source de courant sur le départ ${a.branch}`,
      how: a =>
        `Protection ouverte. Plus sur ${a.branch} +, retour sur ${a.into === 'earth' ? 'la terre' : `${a.branch} 0 V`}. La retirer après les mesures.`,
      done: a => `La source alimente ${a.branch}`,
    },
    'inject off': {
      title: a => `Débrancher la source de courant du départ ${a.branch}`,
      how: 'Couper d’abord la source, puis retirer ses fils.',
      done: 'Source coupée et retirée',
    },
  },
  points: {
    earth: 'borne de terre',
    earthShort: 'terre',
    supplyShort: 'alim.',
    busShort: 'barre',
    supply: plus => `alimentation, borne ${plus ? '+' : '0 V'}`,
    bus: plus => `barre ${plus ? '24 V' : '0 V'}`,
    branch: (branch, plus) => `départ ${branch}, borne de départ ${plus ? '+' : '0 V'}`,
    run: (run, plus) => `tronçon ${run}, bout proche, fil ${plus ? '24 V' : '0 V'}`,
    junction: (junction, plus) => `jonction ${junction}, ${plus ? '24 V' : '0 V'}`,
  },
  at: { cabinet: ' à l’armoire', junction: junction => ` à la jonction ${junction}` },
  read: {
    amp: branch => `Mesurer les ampères dans le départ ${branch}`,
    between: (meter, red, black) => `Mesurer ${UNITS[meter]} : ${red} contre ${black}`,
    supply: meter => `Mesurer ${UNITS[meter]} aux bornes de l’alimentation`,
    bus: meter => `Mesurer ${UNITS[meter]} aux barres`,
    branch: (meter, branch) => `Mesurer ${UNITS[meter]} au départ ${branch}, bornes de départ`,
    run: (meter, run, at) => `Mesurer ${UNITS[meter]} vers le tronçon ${run}, à son bout proche${at}`,
    junction: (meter, junction, branch) => `Mesurer ${UNITS[meter]} à la jonction ${junction} du départ ${branch}`,
    series: 'Multimètre en série avec la source, cordons sur A et COM. Ensuite le cordon rouge revient sur VΩ.',
    clamp: 'Mettre la pince à zéro. Pincer le seul conducteur +, flèche vers le récepteur.',
    probes: (red, black) => `Rouge sur : ${red}. Noir sur : ${black}.`,
    waitOhm: 'Attendre que l’affichage soit stable.',
    waitVolt: 'Sélecteur sur V, courant continu.',
  },
  look: {
    device: (branch, kind) => {
      const names = { fuse: 'le fusible', breaker: 'le disjoncteur', device: 'la protection' }
      return `Regarder ${names[kind]} du départ ${branch}`
    },
    supplyLamp: 'Regarder le voyant de l’alimentation',
    mainsLamp: 'Regarder si l’alimentation a du réseau',
    deviceHow: 'Regarder seulement. Ne pas manœuvrer.',
    lampHow: 'Regarder seulement. Les capots restent fermés.',
  },
}
