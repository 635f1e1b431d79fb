// Spanish: why a step is asked for.
import { factsWith } from '../shared/facts.ts'
import type { Facts } from '../shared/types.ts'
import type { Sentences } from '../words.ts'

const { of, yes, metres } = factsWith(',')
const branches = (f: Facts): string => {
  const list = of(f, 'branches').split(', ')
  const more = Number(f['count'] ?? 0) - list.length
  return `${list.length + Math.max(0, more) > 1 ? 'Ramales' : 'Ramal'} ${list.join(', ')}${more > 0 ? ` y ${more} más` : ''}`
}

export const whys: Sentences['whys'] = {
  recorded: () => 'Así se preguntó entonces.',
  'mains-first': () => 'Sin red no funciona ninguna fuente de 24 V. La lámpara lo dice sin herramientas.',
  'lamp-tells': () => 'La lámpara de la fuente distingue sobrecarga, sin salida y sana, en cinco segundos.',
  drop: f => `La corriente del fallo deja milivoltios solo en su propia protección. ${of(f, 'branches')} tienen ${of(f, 'p')} de 100.`,
  'supply-off-first': () => 'Los ohmios y los conductores sueltos piden un circuito sin tensión.',
  'prove-dead-first': () => 'Solo tres medidas prueban la ausencia de tensión. Una lámpara apagada no prueba nada.',
  'prove-dead-again': () => 'Puede haber vuelto la tensión desde la última verificación.',
  'held-volts': f => `La fuente da ${of(f, 'ampere')} A en su límite: los voltios de las barras dicen los ohmios de lo que la hunde.`,
  'device-past': f => `Con su protección abierta, una medida en el ramal ${of(f, 'branch')} ve solo su propio cableado.`,
  group: f =>
    `${branches(f)}: en total ${of(f, 'p')} de 100. Una medida ${Number(f['count']) === 1 ? 'lo descarta o lo señala' : 'los descarta o los señala'}.`,
  likeliest: f =>
    `El ramal ${of(f, 'branch')} tiene ${of(f, 'p')} de 100${f['metres'] === undefined ? '' : `: ${metres(f['metres'])} de cable${yes(f['moving']) ? ', parte de él móvil' : ''}`}.`,
  narrow: f => `Esto acota el lugar en el ramal ${of(f, 'branch')} de ${metres(f['before'])} a unos ${metres(f['after'])}.`,
  kind: f => `Esto dice qué clase de fallo tiene el ramal ${of(f, 'branch')}: a 0 V, a tierra o en una carga.`,
  current: f => `La corriente del ramal ${of(f, 'branch')} convierte voltios en ohmios: hay que conocerla.`,
  inject: f =>
    `Milivoltios con corriente conocida sitúan el fallo del ramal ${of(f, 'branch')} en ${metres(f['after'])}; los ohmios, solo en ${metres(f['ohm'] ?? f['before'])}.`,
  'trace-volts': f => `Tras un conductor cortado del ramal ${of(f, 'branch')} no hay tensión. Este ramal tiene ${of(f, 'p')} de 100.`,
  'trace-ohms': f => `Las cargas tras un conductor cortado faltan en los ohmios. El ramal ${of(f, 'branch')} tiene ${of(f, 'p')} de 100.`,
  'live-trial': f =>
    `Los ohmios son correctos: la avería solo se ve con tensión. Con ${of(f, 'count')} protecciones cerradas, la fuente dice en qué lado está.`,
  'watch-moving': f =>
    `Una avería que va y viene se esconde en reposo. Mueva lo que se mueve del ramal ${of(f, 'branch')} y mire el medidor: tiene ${of(f, 'p')} de 100.`,
  'other-supply': () =>
    'Queda tensión con la fuente apagada: otra fuente alimenta un ramal o el embarrado. La del ramal desaparece al abrir su protección.',
  'other-supply-branch': () => 'La tensión tras una protección abierta viene de otra fuente.',
  'zero-leads': f => `Con las puntas a cero, el lugar se acota de ${metres(f['before'])} a unos ${metres(f['after'])}.`,
  'go-look': f => `Este lugar tiene ${of(f, 'p')} de 100. Mirar lleva unos ${of(f, 'seconds')} s, menos que seguir midiendo.`,
  'look-along': f => `Ya no queda nada que medir. El ramal ${of(f, 'branch')} se revisa de un extremo a otro.`,
  'put-back': () => 'Lo abierto o desenchufado para medir vuelve a como estaba.',
  'check-mend': f => `Ohmios limpios en el ramal ${of(f, 'branch')} no muestran ningún cortocircuito en reposo, antes de darle tensión.`,
  'prove-restored': () => 'Solo una lámpara fija y la tensión correcta prueban que la tensión de mando ha vuelto.',
  'device-look': f => `Una protección puede haberse abierto sola. Entonces el ramal ${of(f, 'branch')} se mide mal.`,
  'device-open': f => `Allí no había nada. Si la protección del ramal ${of(f, 'branch')} no estaba abierta, se midió otro ramal.`,
  'after-energising': f => `Hubo tensión desde la última mirada. La protección del ramal ${of(f, 'branch')} puede haberse abierto.`,
  'load-aside': f => `La carga ${of(f, 'load')} está entre los conductores del ramal ${of(f, 'branch')} y falsea la medida.`,
  'switch-on': () => 'La próxima mirada o medida necesita la fuente conectada.',
  'off-to-look': () => 'Nadie se acerca a un cable alimentado: al moverlo pueden arrancar cargas.',
  repeat: () => 'La última medida encaja mal con las anteriores. Una segunda lo aclara.',
  'in-rush': f => `Todo a la vez tomaría ${of(f, 'ampere')} A al principio; la fuente da ${of(f, 'limit')} A. Este viene después.`,
  pause: f => `Espere ${of(f, 'seconds')} s tras el anterior: su corriente de conexión debe pasar antes.`,
}
