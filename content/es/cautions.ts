// Spanish cautions; the sources are those of the English ones.
import type { Sentences } from '../words.ts'

const MOTION = 'Todas las personas están lejos de las partes móviles. El movimiento está asegurado.'
const STORED = 'Las cargas suspendidas descansan. La presión acumulada está descargada o cortada.'
const CLEAR = 'Nadie está en peligro'

export const cautions: Sentences['cautions'] = {
  'before-work': {
    title: 'Compruebe esto antes de trabajar',
    points: [
      'Las normas del sitio y la ley local van primero. Hay permiso para este trabajo.',
      'La máquina está parada. Nada cuelga ni se sostiene por presión.',
      'Las personas cercanas a la máquina saben del trabajo.',
      'Una persona autorizada puede cortar y enclavar la fuente en su propio interruptor. Un pulsador no basta.',
      'Las tapas del lado de red quedan cerradas, salvo para trabajadores cualificados. La red puede estar junto a los 24 V.',
      '24 V no son inofensivos: arrancan máquinas, un cortocircuito quema y los conductores pueden estar calientes.',
      'Multímetro, puntas y una pila para probarlo están a mano. Nunca un medidor de aislamiento: rompe la electrónica.',
      'Se sabe en qué se trabajó o qué se lavó por última vez.',
      'Hay una foto de los ajustes de los aparatos. Fusibles y cable de repuesto están a mano.',
    ],
    done: 'Todo es así',
    source: 'EN 50110-1, las cinco reglas; 29 CFR 1910.147(d)(1) a (d)(6); 29 CFR 1910.333(b)(2)',
  },
  'voltage-may-return': {
    title: 'La tensión puede volver: asegure antes',
    points: [
      'Todas las personas están lejos de las partes móviles.',
      'La tensión de mando puede arrancar una máquina. El movimiento está asegurado: nada puede arrancar, caer ni cerrarse.',
      STORED,
      'Ningún conductor suelto puede tocar nada.',
    ],
    done: CLEAR,
    source: '29 CFR 1910.147(e), retirada del enclavamiento; 29 CFR 1910.333(b)(2)(v), nueva puesta en tensión (apartados de memoria)',
  },
  injection: {
    title: 'El generador puede arrancar cargas: asegure antes',
    points: [
      MOTION,
      STORED,
      'La protección de este ramal está abierta y sigue abierta.',
      'El generador está aislado, limitado a 24 V, su corriente por debajo de la asignada de conductor y protección.',
      'Solo está conectado mientras se mide.',
    ],
    done: CLEAR,
    source: 'Práctica común, sin referencia; puesta en tensión como en 29 CFR 1910.147(e) (apartado de memoria)',
  },
  'switch-on-again': {
    title: 'Puede seguir habiendo un cortocircuito: asegure antes',
    points: [
      MOTION,
      STORED,
      'Se conecta una vez, durante 60 segundos como mucho.',
      'Si la fuente vuelve a caer, se corta enseguida. Con estas protecciones cerradas queda cortada.',
      'Nadie está delante de un armario abierto.',
    ],
    done: CLEAR,
    source: '29 CFR 1910.334(b)(2), sin rearmes repetidos antes de conocer la causa (de memoria)',
  },
  'opening-live-device': {
    title: 'Abrir esta protección puede devolver la tensión al resto',
    points: [MOTION, STORED, 'Un fusible nunca se saca con carga: para eso la fuente está cortada.'],
    done: CLEAR,
    source: 'EN 50110-1, fusibles y conectores sin carga (de memoria); práctica común, sin referencia',
  },
  'not-extra-low-voltage': {
    title: 'Alto. Esto no son 24 V',
    points: [
      'Retire las puntas. No toque nada en el armario.',
      'Aísle la máquina aguas arriba y enclávela.',
      'Mantenga a los demás lejos de la máquina.',
      'Llame a un electricista autorizado.',
    ],
    done: 'La sesión se cierra',
    source: '60 V c.c., 25 V c.a.: límites sin protección básica, en seco, IEC 60364-4-41:2005, 414.4.5 (60 V de memoria)',
  },
  'voltage-stays': {
    title: 'Sigue habiendo tensión: busque de dónde viene',
    points: [
      'Una tensión que queda o sube viene de otra fuente, de un módulo de respaldo o de un condensador.',
      'El interruptor enclavado puede no ser el correcto.',
      'Ni ohmios ni conductores sueltos hasta que no haya tensión.',
      'Hallado y cortado el origen, se verifica de nuevo la ausencia de tensión.',
    ],
    done: 'Origen hallado y cortado',
    source: '29 CFR 1910.333(b)(2)(ii)(C), energía acumulada; (b)(2)(iv), retorno de tensión',
  },
  'mains-side': {
    title: 'Trabajo en el lado de red: quién lo hace',
    points: [
      'Una persona cualificada en electricidad está aquí y hace el trabajo en el lado de red.',
      'Esa persona corta la red, la enclava y comprueba la ausencia de tensión antes de abrir una tapa.',
      'Las normas locales dicen quién está cualificado o habilitado para ello.',
      'Sin tal persona el trabajo se entrega: pulse «No se puede».',
    ],
    done: 'Persona cualificada aquí',
    source: '29 CFR 1910.333(c)(2), personas cualificadas; EN 50110-1 y NFPA 70E (ambas de memoria)',
  },
}
