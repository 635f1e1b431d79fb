// French: what the drawings show, and the few words in them.
import type { Sentences } from '../words.ts'

export const drawings: Sentences['drawings'] = {
  strip: {
    count: branches => `Bornier, ${branches} départs.`,
    likeliest: list => `Les plus probables : ${list}.`,
    likely: (branch, of100) => `${branch} avec ${of100} sur 100`,
    none: 'Aucun départ ne ressort.',
    unlikely: list => `Désormais peu probables : ${list}.`,
    open: list => `Protection non fermée : ${list}.`,
    working: branch => `Le travail est à ${branch}.`,
  },
  cabinet: 'Dessin de l’armoire : alimentation, barres, protections, bornes de départ, terre.',
  buses: (devices, closed) => `Dessin des barres avec les ${devices} protections. Fermées : ${closed}.`,
  all: 'toutes',
  no: 'aucune',
  tips: 'Dessin du multimètre en ohms, pointes réunies.',
  mainsToSupply: 'Dessin du réseau, de l’interrupteur et de l’alimentation 24 V.',
  tree: {
    branch: branch => `Départ ${branch} à l’échelle.`,
    run: (run, from, to, metres, moving) => `Tronçon ${run} de ${from} à ${to}, ${metres}${moving ? ', mobile' : ''}.`,
    cabinet: 'armoire',
  },
  closed: {
    none: 'toutes les protections ouvertes',
    all: 'toutes les protections fermées',
    some: (closed, count) => `${closed} sur ${count} fermées`,
    named: names => `fermées : ${names}`,
  },
  plusBus: 'barre 24 V',
  zeroBus: 'barre 0 V',
  red: 'rouge',
  black: 'noir',
  source: 'source courant',
  mains: 'réseau',
  supply: 'alim.',
  on: 'marche',
  off: 'coupé',
}
