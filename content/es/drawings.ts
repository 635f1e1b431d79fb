// Spanish: what the drawings show, and the few words in them.
import type { Sentences } from '../words.ts'

export const drawings: Sentences['drawings'] = {
  strip: {
    count: branches => `Regleta, ${branches} ramales.`,
    likeliest: list => `Los más probables: ${list}.`,
    likely: (branch, of100) => `${branch} con ${of100} de 100`,
    none: 'Ningún ramal destaca.',
    unlikely: list => `Ya poco probables: ${list}.`,
    open: list => `Protección no cerrada: ${list}.`,
    working: branch => `Se trabaja en ${branch}.`,
  },
  cabinet: 'Dibujo del armario: fuente, barras, protecciones, bornes de salida, tierra.',
  buses: (devices, closed) => `Dibujo de las barras con las ${devices} protecciones. Cerradas: ${closed}.`,
  all: 'todas',
  no: 'ninguna',
  tips: 'Dibujo del multímetro en ohmios, con las puntas juntas.',
  mainsToSupply: 'Dibujo de la red, el interruptor y la fuente de 24 V.',
  tree: {
    branch: branch => `Ramal ${branch} a escala.`,
    run: (run, from, to, metres, moving) => `Tramo ${run} de ${from} a ${to}, ${metres}${moving ? ', móvil' : ''}.`,
    cabinet: 'armario',
  },
  closed: {
    none: 'todas las protecciones abiertas',
    all: 'todas las protecciones cerradas',
    some: (closed, count) => `${closed} de ${count} cerradas`,
    named: names => `cerradas: ${names}`,
  },
  plusBus: 'barra 24 V',
  zeroBus: 'barra 0 V',
  red: 'rojo',
  black: 'negro',
  source: 'generador',
  mains: 'red',
  supply: 'fuente',
  on: 'conectado',
  off: 'cortado',
}
