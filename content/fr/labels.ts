// French words of the screens: power states, looks, results, reasons, answers.
import type { Sentences } from '../words.ts'

export const labels: Sentences['labels'] = {
  powers: {
    live: { word: 'SOUS TENSION', allows: 'volts seuls' },
    fed: { word: 'SOURCE ACTIVE', allows: 'volts, A' },
    off: { word: 'NON VÉRIFIÉ', allows: 'pas d’ohms' },
    danger: { word: 'TENSION LÀ', allows: 'mains loin' },
    provedDead: { word: 'HORS TENSION', allows: 'ohms permis' },
  },
  seen: {
    'supply-lamp': { steady: 'Fixe', blinking: 'Clignote', off: 'Éteint' },
    'mains-lamp': { on: 'Réseau présent', off: 'Pas de réseau' },
    device: { closed: 'Fermée', tripped: 'Déclenchée', open: 'Ouverte' },
  },
  results: {
    restored: { title: 'La tension de commande est revenue', text: 'Défaut réparé, tout remis en place, voyant et tension vérifiés.' },
    'handed-over': {
      title: 'Passer le travail',
      text: '« Sessions passées », sur le premier écran, dit à la personne suivante ce qui a été mesuré.',
    },
    stopped: { title: 'La session est arrêtée', text: 'Laisser la machine en sécurité. Le journal est conservé.' },
  },
  leftOpen: 'Pas encore remis en place',
  fitsNothing: 'Aucun défaut seul ne convient. Refaire la dernière mesure, ou il y a deux défauts.',
  cannots: {
    'out-of-reach': 'Hors d’atteinte',
    'not-allowed': 'Pas autorisé à le faire',
    'no-tool': 'L’outil manque',
    'not-there': 'Cela n’existe pas ici',
    'not-safe': 'Ce ne serait pas sûr',
  },
  wrongs: {
    'worn-through': 'Câble usé par frottement',
    crushed: 'Câble écrasé ou coupé',
    'load-short': 'Récepteur en court-circuit',
    plug: 'Connecteur humide, tordu',
    loose: 'Borne ou brin desserré',
    device: 'Protection usée ou fausse',
    supply: 'Alimentation en panne',
    else: 'Autre chose',
  },
  answers: {
    cannot: why => `impossible : ${why}`,
    found: 'trouvé ici',
    notThere: 'regardé, rien là',
    notDead: volts => `sous tension : ${volts}`,
    done: 'fait',
    shows: value => `affiche ${value}`,
    ac: 'c.a.',
    jumping: 'varie',
  },
}
