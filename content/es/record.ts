// Spanish words of the record for maintenance. Terms after UNE-EN 13306 where known, else ours.
import type { Sentences } from '../words.ts'

export const record: Sentences['record'] = {
  wrong: 'Qué estaba mal',
  modes: {
    name: 'Modo de fallo',
    meaning: 'Cómo se mostró el fallo.',
    source: 'ISO 14224:2016, EN 13306:2017. La elección de modos es nuestra.',
    terms: {
      'no-output': 'Sin salida',
      'low-output': 'Salida baja',
      'erratic-output': 'Salida irregular',
      'spurious-stop': 'Parada intempestiva',
      'fails-to-start': 'No arranca cuando se le pide',
      other: 'Otro',
    },
  },
  mechanisms: {
    name: 'Mecanismo de fallo',
    meaning: 'El proceso físico, químico u otro que hay detrás.',
    source: 'ISO 14224:2016 tabla B.2; números de memoria.',
    terms: {
      'short-circuit': '4.1 Cortocircuito',
      'open-circuit': '4.2 Circuito abierto',
      'no-power': '4.3 Sin alimentación o tensión',
      'faulty-power': '4.4 Alimentación o tensión defectuosa',
      'earth-fault': '4.5 Defecto a tierra o de aislamiento',
      looseness: '1.5 Aflojamiento',
      wear: '2.4 Desgaste',
      breakage: '2.5 Rotura',
      overheating: '2.7 Sobrecalentamiento',
      contamination: '5.2 Contaminación',
      unknown: '6.4 Desconocido',
    },
  },
  causes: {
    name: 'Causa de fallo',
    meaning: 'Las circunstancias que llevaron a él: en diseño, fabricación, montaje, uso o mantenimiento.',
    source: 'EN 13306:2017; los grupos según ISO 14224:2016.',
    terms: {
      design: 'Diseño: capacidad, material, trazado',
      fabrication: 'Fabricación',
      installation: 'Montaje',
      'wear-in-use': 'Uso: desgaste esperado',
      'off-design': 'Uso: fuera de sus límites',
      'operating-error': 'Uso: error',
      maintenance: 'Mantenimiento',
      unknown: 'No se conoce',
    },
  },
  place: {
    run: run => `tramo ${run}`,
    load: load => `carga ${load}`,
    branch: branch => `ramal ${branch}`,
    supply: 'fuente',
  },
  times: {
    down: {
      name: 'Tiempo de indisponibilidad',
      meaning:
        'Desde el fallo, si se dijo cuándo, si no desde el inicio de la sesión, hasta que se comprobaron 24 V (IEC 60050-192, 192-02-21).',
    },
    diagnosis: {
      name: 'Diagnóstico',
      meaning: 'Desde el inicio de la sesión hasta que se confirmó el lugar: localización y diagnóstico (192-07-02, figura 2).',
    },
    correction: { name: 'Corrección', meaning: 'Desde el lugar confirmado hasta que se dijo reparado (192-07-02, figura 2).' },
    checkOut: {
      name: 'Verificación',
      meaning: 'Desde la reparación hasta que se comprobaron 24 V: verificación de la función (192-07-02, figura 2).',
    },
  },
  timesNote: 'La espera de personas y piezas no se distingue. Los tiempos son los de los relojes del teléfono.',
  timesDoubt: 'El teléfono durmió, se reinició o se ajustó su reloj: estos tiempos pueden no ser exactos.',
  sealWords:
    'Delata la manipulación, nada más: un cambio, un intercambio o un hueco altera la cabecera. Un final cortado o un registro sellado de nuevo solo se nota frente a una cabecera anotada en otro sitio.',
}
