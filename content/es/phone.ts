// Words of the phone in the hand: settings, larger drawings, what is left, handing on. Spanish.
import type { Sentences } from '../words.ts'

export const phone: Sentences['phone'] = {
  larger: 'Dibujo más grande',
  settings: {
    title: 'Ajustes',
    hand: 'El pulgar que toca',
    theme: 'Claro u oscuro',
    sound: 'Sonido',
    vibration: 'Vibración',
    values: { right: 'Derecho', left: 'Izquierdo', light: 'Claro', dark: 'Oscuro', phone: 'Como el teléfono', on: 'Sí', off: 'No' },
    extra: 'El sonido y la vibración nunca hacen falta: la pantalla lo dice todo.',
  },
  left: {
    metres: (metres, minutes) => `quedan ${metres} m, ${minutes} min`,
    branches: (branches, minutes) => `quedan ${branches === 1 ? '1 ramal' : `${branches} ramales`}, ${minutes} min`,
  },
  scale: {
    ask: shown => `${shown} no encaja con nada aquí. Mil veces ese valor o su milésima sí. ¿Qué mostró el indicador?`,
    pick: value => `Mostró ${value}`,
  },
  spoke: {
    title: 'Lo que habló a favor y en contra',
    branch: id => `Rama ${id}`,
    for: 'A favor:',
    against: 'En contra:',
    share: (before, after) => `(${before} → ${after} de 100)`,
    nothing: 'Ninguna respuesta ha movido todavía un ramal.',
  },
  handOn: {
    file: 'Entregar como archivo',
    codes: 'Entregar como códigos',
    lead: 'La sesión sigue en el otro teléfono. Allí hay que verificar de nuevo la ausencia de tensión.',
    code: (n, of) => `Código ${n} de ${of}`,
    next: 'Código siguiente',
    close: 'Códigos leídos',
    read: 'Leer con el otro teléfono: Tomar una sesión.',
    ended: 'Esta sesión ha terminado. No hay nada que tomar.',
  },
}
