// Words of the phone in the hand: settings, larger drawings, what is left, handing on. French.
import type { Sentences } from '../words.ts'

export const phone: Sentences['phone'] = {
  larger: 'Dessin plus grand',
  settings: {
    title: 'Réglages',
    hand: 'Le pouce qui touche',
    theme: 'Clair ou sombre',
    sound: 'Son',
    vibration: 'Vibration',
    values: { right: 'Droit', left: 'Gauche', light: 'Clair', dark: 'Sombre', phone: 'Comme le téléphone', on: 'Oui', off: 'Non' },
    extra: 'Le son et la vibration ne sont jamais nécessaires : l’écran dit tout.',
  },
  left: {
    metres: (metres, minutes) => `reste ${metres} m, ${minutes} min`,
    branches: (branches, minutes) => `reste ${branches === 1 ? '1 départ' : `${branches} départs`}, ${minutes} min`,
  },
  scale: {
    ask: shown => `${shown} ne correspond à rien ici. Mille fois cette valeur ou un millième correspond. Que montrait l’afficheur ?`,
    pick: value => `Il montrait ${value}`,
  },
  spoke: {
    title: 'Ce qui a parlé pour et contre',
    branch: id => `Branche ${id}`,
    for: 'Pour :',
    against: 'Contre :',
    share: (before, after) => `(${before} → ${after} sur 100)`,
    nothing: 'Aucune réponse n’a encore fait bouger un départ.',
  },
  handOn: {
    file: 'Remettre en fichier',
    codes: 'Remettre en codes',
    lead: 'La session continue sur l’autre téléphone. L’absence de tension y est à vérifier de nouveau.',
    code: (n, of) => `Code ${n} sur ${of}`,
    next: 'Code suivant',
    close: 'Les codes sont lus',
    read: 'À lire avec l’autre téléphone : Reprendre une session.',
    ended: 'Cette session est terminée. Il n’y a rien à reprendre.',
  },
}
