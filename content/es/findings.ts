// Spanish faults, findings and mends.
import type { Sentences } from '../words.ts'

const STRAIN_RELIEF = 'La descarga de tracción aguanta.'
const NOTHING_LEFT = 'No queda ningún hilo, viruta ni herramienta.'
const MAINS_SIDE = 'En el lado de red no se ha verificado la ausencia de tensión: allí solo trabaja personal cualificado.'
const COOLING = 'Las rejillas de ventilación están libres.'

export const findings: Sentences['findings'] = {
  faults: {
    'short-to-zero': 'Hilo de 24 V contra hilo de 0 V',
    'short-to-earth': 'Hilo de 24 V contra tierra',
    'load-short': 'Cortocircuito dentro de la carga',
    short: 'Cortocircuito: a 0 V, a tierra o en una carga',
    overload: 'Se consume demasiada corriente',
    'in-rush': 'Demasiado conectado a la vez',
    'open-plus': 'Hilo de 24 V cortado',
    'open-zero': 'Hilo de 0 V cortado',
    'poor-joint': 'Mala conexión: floja, sucia o quemada',
    swapped: 'Conductores cruzados',
    diode: 'Diodo supresor averiado o al revés',
    intermittent: 'Cortocircuito que va y viene',
    backfeed: 'Tensión que entra por otro lado',
    'device-open': 'Protección abierta',
    'supply-low': 'La fuente da poca tensión',
    'supply-dead': 'La fuente no da nada',
    'no-mains': 'La fuente no tiene red',
  },
  title: {
    noMains: 'Averigüe por qué la fuente no tiene red',
    deviceOpen: branch => (branch ? `Mire la protección del ramal ${branch}: está abierta` : 'Mire las protecciones: una está abierta'),
    at: (run, metres, past) => `Vaya a mirar el tramo ${run}, a ${metres} ${past}`,
    stretch: (run, from, to, past) => `Vaya a mirar el tramo ${run}, de ${from} a ${to} ${past}`,
    pastCabinet: 'desde los bornes del armario',
    pastJunction: junction => `desde la conexión ${junction}`,
    run: (run, branch) => `Vaya a mirar el tramo ${run}${branch && ` del ramal ${branch}`}`,
    load: (load, junction) => `Vaya a mirar ${load}${junction && ` en la conexión ${junction}`}`,
    branch: branch => `Recorra el ramal ${branch}, del armario a las cargas`,
    supply: 'Mire la fuente de 24 V y sus bornes',
  },
  doubt: 'Lo más probable, no probado.',
  inMoving: 'En el cable móvil.',
  inFixed: 'En el cable fijo.',
  how: {
    comesAndGoes: {
      look: 'Mire dónde se dobla y roza, también medio metro más allá de cada extremo.',
      hands: 'Conecte el medidor en su extremo cercano y dóblelo trozo a trozo: donde bajan los ohmios está el lugar.',
    },
    wrongWay: {
      look: 'Compare el positivo y 0 V con sus marcas, y la franja del diodo, que mira al positivo.',
      hands: 'Desenchúfela y mida el diodo en los dos sentidos: solo uno puede conducir.',
    },
    tooMuch: {
      look: 'Busque calor, un rotor atascado y una pieza de otra potencia.',
      hands: 'Gírela a mano y compare sus ohmios con su placa.',
    },
    otherSupply:
      'Busque una segunda fuente, un módulo de reserva o una unión con otro ramal u otra máquina. Cuando esté apagada y asegurada, confirme.',
    handsOff: 'Solo mire: no se ha verificado la ausencia de tensión.',
    noMains: 'Mire el interruptor principal y el magnetotérmico anterior. Las tapas quedan cerradas, salvo para trabajadores cualificados.',
    deviceOpen: 'Se abrió por algo. Mire su ramal antes de cerrarla de nuevo.',
    supplyDead: 'Hay red, pero no sale nada. Busque quemaduras, conductores de salida flojos y rejillas tapadas.',
    supply: 'Mire su ajuste, sus conductores de salida y lo que cuelga de ella.',
    openRun: {
      look: 'Mire en ambos extremos si hay un hilo flojo o roto; después a lo largo, si hay un corte o aplastamiento.',
      hands: 'Tire de cada hilo.',
    },
    run: {
      look: 'Busque un punto rozado, aplastado, cortado o caliente, también medio metro más allá de cada extremo.',
      hands: 'Aparte las bridas.',
    },
    load: {
      look: 'Busque humedad, quemaduras y patillas dobladas.',
      hands: 'Desenchúfela y mire en ambos conectores. Un cortocircuito interno no se ve: mida ohmios entre sus propias patillas.',
    },
    branch: {
      look: 'Siga todo su cable: bridas, curvas, prensaestopas.',
      hands:
        'Desenchufe cada carga, mida los ohmios del ramal, vuelva a enchufarla. Donde suban de golpe, el fallo está tras ese conector.',
    },
  },
  mends: {
    'other-supply': {
      title: m => `Desconecte la otra fuente${m.branch && ` del ramal ${m.branch}`}`,
      points: [
        'Está apagada y asegurada por quien está autorizado.',
        'La unión entre las dos está quitada, o un módulo de desacoplo las separa.',
        'Las dos alimentaciones están marcadas donde se juntan.',
      ],
      done: 'Quitada y asegurada',
    },
    'wrong-way': {
      title: m => `Ponga en orden el cableado de ${m.load || m.branch}`,
      points: [
        'El positivo y 0 V están donde piden sus marcas.',
        'La franja del diodo mira al positivo. Un diodo que ha conducido se cambia.',
        'Sus bornes están apretados.',
      ],
      done: 'Corregido',
    },
    run: {
      title: m => `Repare el tramo ${m.run}${m.branch && ` del ramal ${m.branch}`}`,
      points: [
        'El cable está cambiado, o el trozo dañado cortado y unido en una caja.',
        'El borde, la curva o la brida que lo gastó está hallado y quitado.',
        STRAIN_RELIEF,
        NOTHING_LEFT,
      ],
      done: 'Reparado y cubierto',
    },
    load: {
      title: m => `Cambie ${m.load}`,
      points: [
        'La nueva tiene la misma tensión y potencia.',
        'Los conectores están secos, las patillas rectas, la junta en su sitio.',
        'El diodo supresor, si lo hay, está en el sentido correcto.',
        STRAIN_RELIEF,
      ],
      done: 'Cambiada y montada',
    },
    'no-mains': {
      title: 'Ponga en orden la red de la fuente',
      points: [
        MAINS_SIDE,
        'Se sabe y está corregido por qué abrió su magnetotérmico o fusible.',
        'El interruptor principal y sus bornes están bien, comprobados por esa persona.',
        'La fuente sigue cortada y enclavada para lo que viene.',
      ],
      done: 'La red está en orden',
    },
    'supply-dead': {
      title: 'Cambie la fuente de 24 V o repare lo que la detiene',
      points: [
        MAINS_SIDE,
        'La nueva tiene la misma tensión y no menos corriente.',
        'Los conductores de salida están apretados, + y 0 V no cruzados.',
        COOLING,
      ],
      done: 'La fuente está en orden',
    },
    supply: {
      title: 'Ponga en orden la fuente',
      points: [MAINS_SIDE, 'Ajuste, potencia y carga concuerdan.', 'Los bornes de salida están apretados.', COOLING],
      done: 'La fuente está en orden',
    },
    'device-open': {
      title: m => `Averigüe por qué está abierta la protección${m.branch && ` del ramal ${m.branch}`}`,
      points: [
        'Nada en el ramal está dañado, mojado ni caliente.',
        'Sus cargas juntas no pasan de su corriente asignada.',
        'La protección está sana, con la corriente correcta, sus bornes apretados.',
        'Una protección gastada está cambiada por otra de la misma clase.',
      ],
      done: 'La causa está corregida',
    },
    branch: {
      title: m => `Repare el fallo${m.branch && ` del ramal ${m.branch}`}`,
      points: [
        'Lo dañado está cambiado o cortado: cable, conector o carga.',
        'Lo que lo gastó está quitado: borde, curva, brida, humedad.',
        'Los bornes están apretados, la descarga de tracción aguanta.',
        NOTHING_LEFT,
      ],
      done: 'Reparado y cubierto',
    },
  },
  strainRelief: { fixed: STRAIN_RELIEF, moving: 'La descarga de tracción aguanta, y la curva es amplia en todo su recorrido.' },
}
