// Spanish: the few words of the trade that steps use.
import type { Sentences } from '../words.ts'

export const glossary: Sentences['glossary'] = [
  ['Ramal', 'Todo lo que alimenta una protección del armario.'],
  ['Protección', 'Magnetotérmico, fusible o protección electrónica de un ramal.'],
  ['Barra', 'La barra o puente que alimenta todas las protecciones, y la que recoge todos los 0 V.'],
  ['Bornes de salida', 'Donde un ramal deja el armario, tras su protección.'],
  ['Tramo', 'Un cable de una conexión a la siguiente: un hilo de 24 V y otro de 0 V.'],
  ['Extremo cercano', 'El extremo de un tramo más próximo al armario.'],
  ['Conexión', 'Una caja, un conector o un borne donde se juntan tramos y cargas.'],
  ['Carga', 'Para lo que existe el ramal: válvula, sensor, contactor, lámpara, motor.'],
  ['Puente a tierra', 'La unión de 0 V con la tierra de protección.'],
  ['Sin tensión verificado', 'Más contra 0 V, más contra tierra, 0 V contra tierra: nada en los tres, con un multímetro probado.'],
  ['OL', 'Fuera del alcance de la pantalla: abierto o demasiado grande.'],
  ['Generador de corriente', 'Una alimentación aislada, limitada en corriente y a 24 V, para un solo ramal.'],
  ['Pinza', 'Un medidor que lee amperios alrededor de un conductor, sin abrirlo.'],
]
