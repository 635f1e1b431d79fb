// French words of the record for maintenance. Terms after NF EN 13306 where known, else ours.
import type { Sentences } from '../words.ts'

export const record: Sentences['record'] = {
  wrong: 'Ce qui n’allait pas',
  modes: {
    name: 'Mode de défaillance',
    meaning: 'Comment la défaillance s’est montrée.',
    source: 'ISO 14224:2016, EN 13306:2017. Le choix des modes est le nôtre.',
    terms: {
      'no-output': 'Pas de sortie',
      'low-output': 'Sortie trop faible',
      'erratic-output': 'Sortie irrégulière',
      'spurious-stop': 'Arrêt intempestif',
      'fails-to-start': 'Ne démarre pas à la demande',
      other: 'Autre',
    },
  },
  mechanisms: {
    name: 'Mécanisme de défaillance',
    meaning: 'Le processus physique, chimique ou autre qui est derrière.',
    source: 'ISO 14224:2016 tableau B.2 ; numéros de mémoire.',
    terms: {
      'short-circuit': '4.1 Court-circuit',
      'open-circuit': '4.2 Circuit ouvert',
      'no-power': '4.3 Pas d’alimentation ou de tension',
      'faulty-power': '4.4 Alimentation ou tension défectueuse',
      'earth-fault': '4.5 Défaut de terre ou d’isolement',
      looseness: '1.5 Desserrage',
      wear: '2.4 Usure',
      breakage: '2.5 Rupture',
      overheating: '2.7 Surchauffe',
      contamination: '5.2 Pollution',
      unknown: '6.4 Inconnu',
    },
  },
  causes: {
    name: 'Cause de défaillance',
    meaning: 'Les circonstances qui y ont mené : conception, fabrication, montage, usage ou maintenance.',
    source: 'EN 13306:2017 ; les groupes d’après ISO 14224:2016.',
    terms: {
      design: 'Conception : capacité, matière, parcours',
      fabrication: 'Fabrication',
      installation: 'Montage',
      'wear-in-use': 'Usage : usure attendue',
      'off-design': 'Usage : hors de ses limites',
      'operating-error': 'Usage : erreur',
      maintenance: 'Maintenance',
      unknown: 'Non connue',
    },
  },
  place: {
    run: run => `tronçon ${run}`,
    load: load => `récepteur ${load}`,
    branch: branch => `départ ${branch}`,
    supply: 'alimentation',
  },
  times: {
    down: {
      name: 'Temps d’indisponibilité',
      meaning:
        'Depuis la défaillance, si son moment est dit, sinon depuis le début de la session, jusqu’aux 24 V vérifiés (IEC 60050-192, 192-02-21).',
    },
    diagnosis: {
      name: 'Diagnostic',
      meaning: 'Du début de la session au lieu confirmé : localisation et diagnostic (192-07-02, figure 2).',
    },
    correction: { name: 'Correction', meaning: 'Du lieu confirmé à la réparation annoncée (192-07-02, figure 2).' },
    checkOut: { name: 'Vérification', meaning: 'De la réparation aux 24 V vérifiés : vérification de la fonction (192-07-02, figure 2).' },
  },
  timesNote: 'L’attente de personnes et de pièces n’est pas distinguée. Les temps viennent des horloges du téléphone.',
  timesDoubt: 'Le téléphone a dormi, redémarré ou changé d’heure : ces temps peuvent être faux.',
  sealWords:
    'Toute falsification se voit, rien de plus : une retouche, un échange ou un manque change l’en-tête. Une fin coupée, ou un journal rescellé, ne se voit que face à un en-tête noté ailleurs.',
}
