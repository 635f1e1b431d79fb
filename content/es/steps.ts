// Spanish: a step in words.
import type { Sentences } from '../words.ts'

const UNITS = { volt: 'los voltios', ohm: 'los ohmios' } as const
const TIGHTEN = 'Apriételo y tire de él para probarlo.'
const OWN_SWITCH = 'Use el propio interruptor de la máquina. Solo para quien esté autorizado allí.'

export const steps: Sentences['steps'] = {
  acts: {
    'supply on': { title: 'Conecte la fuente de 24 V', how: `Quite el candado. ${OWN_SWITCH}`, done: 'La fuente está conectada' },
    'supply off': {
      title: 'Corte la fuente de 24 V y enclávela',
      how: `${OWN_SWITCH} Ponga el candado, guarde la llave.`,
      done: 'Cortada y enclavada',
    },
    'prove-dead': {
      title: 'Verifique la ausencia de tensión',
      how: 'Multímetro en V: pruébelo en una pila. Mida 1, 2 y 3, c.c. y c.a. Pruébelo otra vez.',
      done: 'Sin tensión en los tres',
    },
    'zero-leads': {
      title: 'Junte las puntas y ponga el multímetro a cero',
      how: 'Selector en Ω. Puntas bien juntas. Pulse la tecla de cero. Espere a que se estabilice.',
      done: 'A cero, muestra 0',
    },
    'fuse open': {
      title: a => `Saque el fusible del ramal ${a.branch}`,
      how: 'Sáquelo sin carga. Téngalo a mano.',
      done: a => `Fusible ${a.branch} fuera`,
    },
    'fuse closed': {
      title: a => `Ponga el fusible del ramal ${a.branch}`,
      how: 'Póngalo una vez, mismo calibre y clase. Si vuelve a fundirse, déjelo fuera.',
      done: a => `Fusible ${a.branch} puesto`,
    },
    'breaker open': {
      title: a => `Abra el magnetotérmico del ramal ${a.branch}`,
      how: 'Desconéctelo. Deje los demás como están.',
      done: a => `Magnetot. ${a.branch} abierto`,
    },
    'breaker closed': {
      title: a => `Cierre el magnetotérmico del ramal ${a.branch}`,
      how: 'Ciérrelo una vez. Si vuelve a abrirse, déjelo abierto.',
      done: a => `Magnetot. ${a.branch} cerrado`,
    },
    'device open': {
      title: a => `Abra la protección del ramal ${a.branch}`,
      how: 'Desconecte el magnetotérmico, o saque el fusible. Deje los demás como están.',
      done: a => `Protección ${a.branch} abierta`,
    },
    'device closed': {
      title: a => `Cierre la protección del ramal ${a.branch}`,
      how: 'Ciérrela una vez. Si vuelve a abrirse, déjela abierta.',
      done: a => `Protección ${a.branch} cerrada`,
    },
    'load plugged': {
      title: a => `Enchufe ${a.load} en el ramal ${a.branch}`,
      how: 'Enchúfela donde estaba.',
      done: 'Está enchufada',
    },
    'load unplugged': {
      title: a => `Desenchufe ${a.load} en el ramal ${a.branch}`,
      how: 'Tire recto del conector. Apártelo de humedad y suciedad.',
      done: 'Está desenchufada',
    },
    'run joined': {
      title: a => `Conecte el tramo ${a.run} del ramal ${a.branch}${a.at}`,
      how: 'Conecte los dos conductores como estaban. Tire de cada uno para probarlo.',
      done: a => `Tramo ${a.run} conectado`,
    },
    'run opened': {
      title: a => `Abra el tramo ${a.run} del ramal ${a.branch}${a.at}`,
      how: 'Suelte los dos conductores, + y 0 V. Márquelos. Mantenga los extremos separados.',
      done: a => `Tramo ${a.run} abierto`,
    },
    'bus joined': { title: 'Conecte de nuevo el conductor de salida de la fuente a la barra', how: TIGHTEN, done: 'Salida conectada' },
    'bus opened': {
      title: 'Abra el conductor de salida de la fuente a la barra',
      how: 'Suelte el conductor + en la fuente. Cubra su extremo.',
      done: 'Salida abierta',
    },
    'bond joined': { title: 'Conecte de nuevo el puente de 0 V a tierra', how: TIGHTEN, done: 'Puente a tierra conectado' },
    'bond opened': {
      title: 'Abra el puente de 0 V a tierra',
      how: 'Suelte el puente en 0 V. Nada se pone en tensión mientras falte.',
      done: 'Puente a tierra abierto',
    },
    'inject on': {
      title: a => `Conecte el generador de corriente al ramal ${a.branch}`,
      how: a =>
        `Protección abierta. Más en ${a.branch} +, retorno en ${a.into === 'earth' ? 'tierra' : `${a.branch} 0 V`}. Quítelo tras las medidas.`,
      done: a => `Generador alimenta ${a.branch}`,
    },
    'inject off': {
      title: a => `Desconecte el generador de corriente del ramal ${a.branch}`,
      how: 'Apague primero el generador, después quite sus conductores.',
      done: 'Generador apagado y fuera',
    },
  },
  points: {
    earth: 'borne de tierra',
    earthShort: 'tierra',
    supplyShort: 'fuente',
    busShort: 'barra',
    supply: plus => `fuente, borne ${plus ? '+' : '0 V'}`,
    bus: plus => `barra de ${plus ? '24 V' : '0 V'}`,
    branch: (branch, plus) => `ramal ${branch}, borne de salida ${plus ? '+' : '0 V'}`,
    run: (run, plus) => `tramo ${run}, extremo cercano, hilo de ${plus ? '24 V' : '0 V'}`,
    junction: (junction, plus) => `conexión ${junction}, ${plus ? '24 V' : '0 V'}`,
  },
  at: { cabinet: ' en el armario', junction: junction => ` en la conexión ${junction}` },
  read: {
    amp: branch => `Mida los amperios en el ramal ${branch}`,
    between: (meter, red, black) => `Mida ${UNITS[meter]}: ${red} contra ${black}`,
    supply: meter => `Mida ${UNITS[meter]} en los bornes de la fuente`,
    bus: meter => `Mida ${UNITS[meter]} en las barras`,
    branch: (meter, branch) => `Mida ${UNITS[meter]} en el ramal ${branch}, bornes de salida`,
    run: (meter, run, at) => `Mida ${UNITS[meter]} hacia el tramo ${run}, en su extremo cercano${at}`,
    junction: (meter, junction, branch) => `Mida ${UNITS[meter]} en la conexión ${junction} del ramal ${branch}`,
    series: 'Multímetro en serie con el generador, puntas en A y COM. Después la punta roja vuelve a VΩ.',
    clamp: 'Ponga la pinza a cero. Abrace solo el conductor +, flecha hacia la carga.',
    probes: (red, black) => `Rojo en: ${red}. Negro en: ${black}.`,
    waitOhm: 'Espere a que la lectura se estabilice.',
    waitVolt: 'Selector en V, corriente continua.',
  },
  look: {
    device: (branch, kind) => {
      const names = { fuse: 'el fusible', breaker: 'el magnetotérmico', device: 'la protección' }
      return `Mire ${names[kind]} del ramal ${branch}`
    },
    supplyLamp: 'Mire la lámpara de la fuente',
    mainsLamp: 'Mire si la fuente tiene red',
    deviceHow: 'Solo mire. No la accione.',
    lampHow: 'Solo mire. Las tapas quedan cerradas.',
  },
}
