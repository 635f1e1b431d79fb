// French cautions; the sources are those of the English ones.
import type { Sentences } from '../words.ts'

const MOTION = 'Personne n’est près des parties mobiles. Les mouvements sont bloqués.'
const STORED = 'Les charges suspendues sont posées. La pression accumulée est purgée ou coupée.'
const CLEAR = 'Personne n’est exposé'

export const cautions: Sentences['cautions'] = {
  'before-work': {
    title: 'Vérifier ceci avant le travail',
    points: [
      'Les règles du site et la loi locale passent d’abord. Ce travail est permis.',
      'La machine est arrêtée. Rien ne pend, rien n’est tenu par la pression.',
      'Les personnes proches de la machine connaissent le travail.',
      'Une personne autorisée peut couper et condamner l’alimentation à son propre interrupteur. Un bouton-poussoir ne suffit pas.',
      'Les capots côté réseau restent fermés, sauf pour une personne habilitée. Le réseau peut être juste à côté du 24 V.',
      '24 V n’est pas sans danger : cela démarre des machines, un court-circuit brûle, des conducteurs peuvent être chauds.',
      'Multimètre, cordons et une pile pour l’essayer sont sous la main. Jamais de mesureur d’isolement : il détruit l’électronique.',
      'On sait à quoi on a travaillé ou ce qui a été lavé en dernier.',
      'Une photo des réglages des appareils est prise. Fusibles et câble de rechange sont sous la main.',
    ],
    done: 'Tout est ainsi',
    source: 'EN 50110-1, les cinq règles ; 29 CFR 1910.147(d)(1) à (d)(6) ; 29 CFR 1910.333(b)(2)',
  },
  'voltage-may-return': {
    title: 'La tension peut revenir : s’assurer d’abord',
    points: [
      'Personne n’est près des parties mobiles.',
      'La tension de commande peut démarrer une machine. Les mouvements sont bloqués : rien ne peut démarrer, tomber ni se fermer.',
      STORED,
      'Aucun conducteur libre ne peut toucher quoi que ce soit.',
    ],
    done: CLEAR,
    source: '29 CFR 1910.147(e), déconsignation ; 29 CFR 1910.333(b)(2)(v), remise sous tension (articles de mémoire)',
  },
  injection: {
    title: 'La source de courant peut démarrer des récepteurs : s’assurer d’abord',
    points: [
      MOTION,
      STORED,
      'La protection de ce départ est ouverte et le reste.',
      'La source est isolée, limitée à 24 V, son courant sous le courant assigné du conducteur et de la protection.',
      'Elle ne reste en marche que pendant les mesures.',
    ],
    done: CLEAR,
    source: 'Pratique courante, sans référence ; mise sous tension comme en 29 CFR 1910.147(e) (article de mémoire)',
  },
  'switch-on-again': {
    title: 'Un court-circuit peut encore être là : s’assurer d’abord',
    points: [
      MOTION,
      STORED,
      'On remet en marche une fois, pour 60 secondes au plus.',
      'Si l’alimentation retombe, elle est coupée aussitôt. Avec ces protections fermées, elle reste coupée.',
      'Personne ne se tient devant une armoire ouverte.',
    ],
    done: CLEAR,
    source: '29 CFR 1910.334(b)(2), pas de réarmement répété avant de connaître la cause (de mémoire)',
  },
  'opening-live-device': {
    title: 'Ouvrir cette protection peut faire revenir le reste',
    points: [MOTION, STORED, 'Un fusible n’est jamais retiré en charge : pour cela l’alimentation est coupée.'],
    done: CLEAR,
    source: 'EN 50110-1, fusibles et connecteurs hors charge (de mémoire) ; pratique courante, sans référence',
  },
  'not-extra-low-voltage': {
    title: 'Arrêt. Ce n’est pas du 24 V',
    points: [
      'Retirer les pointes. Ne rien toucher dans l’armoire.',
      'Isoler la machine en amont et la condamner.',
      'Tenir les autres loin de la machine.',
      'Appeler un électricien habilité.',
    ],
    done: 'La session se ferme',
    source: '60 V c.c., 25 V c.a. : limites sans protection principale, à sec, IEC 60364-4-41:2005, 414.4.5 (60 V de mémoire)',
  },
  'voltage-stays': {
    title: 'La tension est encore là : chercher d’où elle vient',
    points: [
      'Une tension qui reste ou monte vient d’une autre alimentation, d’un module tampon ou d’un condensateur.',
      'L’interrupteur condamné n’est peut-être pas le bon.',
      'Ni ohms ni conducteur défait tant que la tension est là.',
      'L’origine trouvée et coupée, l’absence de tension est vérifiée à nouveau.',
    ],
    done: 'Origine trouvée, coupée',
    source: '29 CFR 1910.333(b)(2)(ii)(C), énergie accumulée ; (b)(2)(iv), retour de tension',
  },
  'mains-side': {
    title: 'Travail côté réseau : qui le fait',
    points: [
      'Une personne qualifiée en électricité est ici et fait le travail côté réseau.',
      'Elle coupe le réseau, le verrouille et vérifie l’absence de tension avant d’ouvrir un capot.',
      'Les règles locales disent qui est qualifié ou habilité pour cela.',
      'Sans une telle personne, le travail est transmis : touchez « Pas possible ».',
    ],
    done: 'Personne qualifiée ici',
    source: '29 CFR 1910.333(c)(2), personnes qualifiées ; EN 50110-1 et NFPA 70E (de mémoire)',
  },
}
