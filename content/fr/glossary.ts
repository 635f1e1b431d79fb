// French: the few words of the trade that steps use.
import type { Sentences } from '../words.ts'

export const glossary: Sentences['glossary'] = [
  ['Départ', 'Tout ce qu’alimente une protection de l’armoire.'],
  ['Protection', 'Disjoncteur, fusible ou protection électronique d’un départ.'],
  ['Barre', 'La barre ou le pont qui alimente toutes les protections, et celle qui reçoit tous les 0 V.'],
  ['Bornes de départ', 'Là où un départ quitte l’armoire, après sa protection.'],
  ['Tronçon', 'Un câble d’une jonction à la suivante : un fil 24 V et un fil 0 V.'],
  ['Bout proche', 'Le bout d’un tronçon le plus près de l’armoire.'],
  ['Jonction', 'Une boîte, un connecteur ou une borne où se rejoignent tronçons et récepteurs.'],
  ['Récepteur', 'Ce pour quoi le départ existe : vanne, capteur, contacteur, voyant, moteur.'],
  ['Liaison à la terre', 'La liaison du 0 V à la terre de protection.'],
  ['Absence de tension vérifiée', 'Plus contre 0 V, plus contre terre, 0 V contre terre : rien partout, sur un multimètre essayé.'],
  ['OL', 'Hors de la portée de l’afficheur : ouvert, ou bien trop grand.'],
  ['Source de courant', 'Une alimentation isolée, limitée en courant et à 24 V, pour un seul départ.'],
  ['Pince', 'Un appareil qui mesure les ampères autour d’un conducteur, sans l’ouvrir.'],
]
