// German words of the record for maintenance. Terms after DIN EN 13306 and ISO 14224 where known, else ours.
import type { Sentences } from '../words.ts'

export const record: Sentences['record'] = {
  wrong: 'Was war falsch',
  modes: {
    name: 'Fehlerart',
    meaning: 'Wie sich der Ausfall gezeigt hat.',
    source: 'ISO 14224:2016, EN 13306:2017. Die Auswahl der Arten ist unsere.',
    terms: {
      'no-output': 'Keine Ausgabe',
      'low-output': 'Zu geringe Ausgabe',
      'erratic-output': 'Unstete Ausgabe',
      'spurious-stop': 'Unbeabsichtigter Halt',
      'fails-to-start': 'Startet nicht auf Anforderung',
      other: 'Andere',
    },
  },
  mechanisms: {
    name: 'Ausfallmechanismus',
    meaning: 'Der physikalische, chemische oder sonstige Vorgang dahinter.',
    source: 'ISO 14224:2016 Tabelle B.2; Nummern aus dem Gedächtnis.',
    terms: {
      'short-circuit': '4.1 Kurzschluss',
      'open-circuit': '4.2 Unterbrechung',
      'no-power': '4.3 Keine Speisung oder Spannung',
      'faulty-power': '4.4 Fehlerhafte Speisung oder Spannung',
      'earth-fault': '4.5 Erdschluss oder Isolationsfehler',
      looseness: '1.5 Lockerung',
      wear: '2.4 Verschleiß',
      breakage: '2.5 Bruch',
      overheating: '2.7 Überhitzung',
      contamination: '5.2 Verschmutzung',
      unknown: '6.4 Unbekannt',
    },
  },
  causes: {
    name: 'Ausfallursache',
    meaning: 'Die Umstände, die dazu führten: in Entwurf, Fertigung, Einbau, Gebrauch oder Instandhaltung.',
    source: 'EN 13306:2017; die Gruppen nach ISO 14224:2016.',
    terms: {
      design: 'Entwurf: Auslegung, Werkstoff, Verlegung',
      fabrication: 'Fertigung',
      installation: 'Einbau',
      'wear-in-use': 'Gebrauch: erwartete Abnutzung',
      'off-design': 'Gebrauch: außerhalb der Grenzen',
      'operating-error': 'Gebrauch: Bedienfehler',
      maintenance: 'Instandhaltung',
      unknown: 'Nicht bekannt',
    },
  },
  place: {
    run: run => `Leitung ${run}`,
    load: load => `Verbraucher ${load}`,
    branch: branch => `Abzweig ${branch}`,
    supply: 'Netzteil',
  },
  times: {
    down: {
      name: 'Ausfallzeit',
      meaning:
        'Vom Ausfall, wenn sein Zeitpunkt genannt wurde, sonst vom Beginn der Sitzung, bis 24 V nachgewiesen waren (IEC 60050-192, 192-02-21).',
    },
    diagnosis: {
      name: 'Diagnose',
      meaning: 'Vom Beginn der Sitzung, bis der Ort bestätigt war: Fehlerortung und Diagnose (192-07-02, Bild 2).',
    },
    correction: { name: 'Fehlerbehebung', meaning: 'Vom bestätigten Ort, bis er als instand gesetzt gemeldet war (192-07-02, Bild 2).' },
    checkOut: {
      name: 'Funktionsprüfung',
      meaning: 'Vom Instandsetzen, bis 24 V nachgewiesen waren: Funktionsprüfung (192-07-02, Bild 2).',
    },
  },
  timesNote: 'Warten auf Personen und Teile wird nicht getrennt. Die Zeiten kommen von den Uhren des Telefons.',
  timesDoubt: 'Das Telefon schlief, wurde neu gestartet oder seine Uhr gestellt: diese Zeiten können falsch sein.',
  sealWords:
    'Fälschung erkennbar, mehr nicht: eine Änderung, ein Tausch oder eine Lücke ändert den Kopf. Ein abgeschnittenes Ende oder ein neu versiegeltes Protokoll zeigt sich nur gegen einen anderswo notierten Kopf.',
}
