// French words of photos, tables, exports, the report of many sessions, and readings over time.
import type { Sentences } from '../words.ts'

export const keeping: Sentences['keeping'] = {
  photos: {
    title: 'Photographies',
    take: 'Prendre une photo',
    note: 'Gardées réduites et sans données de l’appareil. Elles ne quittent le téléphone que si un export le dit.',
    none: 'Aucune.',
    busy: 'Réduction …',
    failed: 'Cette image ne peut pas être gardée. Tout le reste est enregistré.',
    alt: n => `Photo numéro ${n}`,
    drop: 'Supprimer cette photo',
    sure: 'Supprimer pour de bon',
    keep: 'La garder',
    gone: n => `${n} citées dans la fiche ne sont pas sur ce téléphone.`,
    withPhotos: 'Photos, dans leurs propres fichiers',
    taken: (file, added, known, strangers) =>
      `${file} : ${added} nouvelles photos, ${known} déjà connues.${strangers > 0 ? ` ${strangers} non gardées : importer d’abord leurs sessions.` : ''}`,
  },
  tables: { comma: 'Tableaux avec virgule décimale, cellules séparées par ;', overview: 'Un tableau de toutes' },
  left: {
    ask: name => `${name} est-il là où il doit être ?`,
    yes: 'Oui, il y est',
    no: 'Non',
    last: time => `Dernier export ${time}.`,
    never: 'Pas encore exporté.',
    copied: name => `${name} est dans le presse-papiers.`,
    copy: 'Copier en texte',
    notCopied: 'Ce navigateur ne copie pas.',
    notGone: 'Cela ne compte pas comme exporté.',
  },
  overall: {
    title: what => `Sessions : ${what}`,
    link: 'Rapport de ces sessions',
    sum: (all, found) => `${all} sessions, dont ${found} avec un constat confirmé.`,
  },
  trend: {
    title: 'Les mêmes points au fil du temps',
    note: 'Mesures aux mêmes points lors des dernières sessions sur cette machine. Une lente dégradation se voit ici. Points creux : avant la réparation.',
    show: 'Mesures au fil du temps',
    none: 'Aucun point n’a été mesuré dans plus d’une session.',
    before: 'avant la réparation',
    after: 'après la réparation',
    busy: n => `Lecture de ${n} sessions …`,
    points: 'Points de mesure',
    day: 'Jour',
    reading: 'Mesure',
  },
}
