// Spanish words of the screens: power states, looks, results, reasons, answers.
import type { Sentences } from '../words.ts'

export const labels: Sentences['labels'] = {
  powers: {
    live: { word: 'CON TENSIÓN', allows: 'solo voltios' },
    fed: { word: 'GENERADOR ON', allows: 'voltios, A' },
    off: { word: 'SIN VERIFICAR', allows: 'sin ohmios' },
    danger: { word: 'HAY TENSIÓN', allows: 'no tocar' },
    provedDead: { word: 'SIN TENSIÓN', allows: 'ohmios sí' },
  },
  seen: {
    'supply-lamp': { steady: 'Fija', blinking: 'Parpadea', off: 'Apagada' },
    'mains-lamp': { on: 'Hay red', off: 'No hay red' },
    device: { closed: 'Cerrada', tripped: 'Disparada', open: 'Abierta' },
  },
  results: {
    restored: {
      title: 'La tensión de mando ha vuelto',
      text: 'Fallo reparado, todo devuelto a su sitio, lámpara y tensión comprobadas.',
    },
    'handed-over': {
      title: 'Entregue el trabajo',
      text: '«Sesiones anteriores», en la primera pantalla, dice a la siguiente persona qué se midió.',
    },
    stopped: { title: 'La sesión está detenida', text: 'Deje la máquina segura. El registro se conserva.' },
  },
  leftOpen: 'Aún sin devolver a su sitio',
  fitsNothing: 'Ningún fallo único encaja. Repita la última medida, o hay dos fallos.',
  cannots: {
    'out-of-reach': 'No se alcanza',
    'not-allowed': 'No está permitido',
    'no-tool': 'Falta la herramienta',
    'not-there': 'No existe aquí',
    'not-safe': 'No sería seguro',
  },
  wrongs: {
    'worn-through': 'Cable gastado por roce',
    crushed: 'Cable aplastado o cortado',
    'load-short': 'Carga en cortocircuito',
    plug: 'Conector mojado o doblado',
    loose: 'Borne o hilo flojo',
    device: 'Protección mala o errónea',
    supply: 'Fuente averiada',
    else: 'Otra cosa',
  },
  answers: {
    cannot: why => `no se puede: ${why}`,
    found: 'hallado aquí',
    notThere: 'mirado, no está',
    notDead: volts => `con tensión: ${volts}`,
    done: 'hecho',
    shows: value => `muestra ${value}`,
    ac: 'c.a.',
    jumping: 'oscila',
  },
}
