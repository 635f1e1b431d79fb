// Spanish words of photos, tables, exports, the report of many sessions, and readings over time.
import type { Sentences } from '../words.ts'

export const keeping: Sentences['keeping'] = {
  photos: {
    title: 'Fotos',
    take: 'Hacer una foto',
    note: 'Se guardan reducidas y sin datos de la cámara. Solo salen del teléfono si una exportación lo dice.',
    none: 'Ninguna.',
    busy: 'Reduciendo …',
    failed: 'Esta imagen no se puede guardar. Todo lo demás está guardado.',
    alt: n => `Foto número ${n}`,
    drop: 'Borrar esta foto',
    sure: 'Borrarla para siempre',
    keep: 'Conservarla',
    gone: n => `${n} citadas en el registro no están en este teléfono.`,
    withPhotos: 'Fotos, en archivos propios',
    taken: (file, added, known, strangers) =>
      `${file}: ${added} fotos nuevas, ${known} ya conocidas.${strangers > 0 ? ` ${strangers} no guardadas: importar antes sus sesiones.` : ''}`,
  },
  tables: { comma: 'Tablas con coma decimal, celdas separadas por ;', overview: 'Una tabla de todas (CSV)' },
  left: {
    ask: name => `¿Está ${name} donde debe?`,
    yes: 'Sí, está allí',
    no: 'No está',
    last: time => `Última exportación ${time}.`,
    never: 'Aún sin exportar.',
    copied: name => `${name} está en el portapapeles.`,
    copy: 'Copiar como texto',
    notCopied: 'Este navegador no copia.',
    notGone: 'No cuenta como exportado.',
  },
  overall: {
    title: what => `Sesiones: ${what}`,
    link: 'Informe de estas sesiones',
    sum: (all, found) => `${all} sesiones, ${found} con hallazgo confirmado.`,
  },
  trend: {
    title: 'Los mismos puntos en el tiempo',
    note: 'Lecturas en los mismos puntos en las últimas sesiones de esta máquina. Aquí se ve un deterioro lento. Puntos huecos: antes de la reparación.',
    show: 'Lecturas en el tiempo',
    none: 'Ningún punto se midió en más de una sesión.',
    before: 'antes de la reparación',
    after: 'después de la reparación',
    busy: n => `Leyendo ${n} sesiones …`,
    points: 'Puntos',
    day: 'Día',
    reading: 'Lectura',
  },
}
