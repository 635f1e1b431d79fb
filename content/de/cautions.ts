// German cautions; the sources are those of the English ones.
import type { Sentences } from '../words.ts'

const MOTION = 'Alle Personen sind aus dem Bereich bewegter Teile. Bewegungen sind gesichert.'
const STORED = 'Hängende Lasten liegen ab. Gespeicherter Druck ist abgelassen oder abgesperrt.'
const CLEAR = 'Alle sind in Sicherheit'

export const cautions: Sentences['cautions'] = {
  'before-work': {
    title: 'Prüfe dies vor der Arbeit',
    points: [
      'Die Regeln des Betriebs und das örtliche Recht gehen vor. Die Arbeit ist erlaubt.',
      'Die Maschine steht. Nichts hängt oder wird durch Druck gehalten.',
      'Wer an der Maschine ist, weiß von der Arbeit.',
      'Eine befugte Person kann das Netzteil an seinem eigenen Schalter ausschalten und verschließen. Ein Taster genügt nicht.',
      'Abdeckungen der Netzseite bleiben zu, außer für Elektrofachkräfte. Netzspannung kann gleich neben den 24 V liegen.',
      '24 V sind nicht harmlos: sie starten Maschinen, ein Kurzschluss brennt, Leiter können heiß sein.',
      'Messgerät, Messleitungen und eine Batterie zum Prüfen sind zur Hand. Nie ein Isolationsmessgerät: es zerstört Elektronik.',
      'Es ist bekannt, woran zuletzt gearbeitet und was zuletzt gereinigt wurde.',
      'Die Einstellungen der Geräte sind fotografiert. Ersatzsicherungen und Kabel sind zur Hand.',
    ],
    done: 'Alles trifft zu',
    source: 'EN 50110-1, die fünf Sicherheitsregeln; 29 CFR 1910.147(d)(1) bis (d)(6); 29 CFR 1910.333(b)(2)',
  },
  'voltage-may-return': {
    title: 'Spannung kann wiederkehren: erst absichern',
    points: [
      'Alle Personen sind aus dem Bereich bewegter Teile.',
      'Steuerspannung kann eine Maschine anlaufen lassen. Bewegungen sind gesichert: nichts kann anlaufen, fallen oder schließen.',
      STORED,
      'Keine lose Ader kann etwas berühren.',
    ],
    done: CLEAR,
    source: '29 CFR 1910.147(e), Freigabe nach dem Sichern; 29 CFR 1910.333(b)(2)(v), Wiedereinschalten (Abschnitte aus dem Gedächtnis)',
  },
  injection: {
    title: 'Die Stromquelle kann Verbraucher anlaufen lassen: erst absichern',
    points: [
      MOTION,
      STORED,
      'Das Schutzgerät dieses Abzweigs ist offen und bleibt offen.',
      'Die Quelle ist potentialfrei, auf 24 V begrenzt, ihr Strom unter dem Bemessungsstrom von Leitung und Schutzgerät.',
      'Sie bleibt nur ein, solange gemessen wird.',
    ],
    done: CLEAR,
    source: 'Übliche Praxis, ohne Quelle; Einschalten wie in 29 CFR 1910.147(e) (Abschnitt aus dem Gedächtnis)',
  },
  'switch-on-again': {
    title: 'Ein Kurzschluss kann noch da sein: erst absichern',
    points: [
      MOTION,
      STORED,
      'Es wird einmal eingeschaltet, für höchstens 60 Sekunden.',
      'Bricht das Netzteil wieder ein, wird es sofort ausgeschaltet. Mit diesen geschlossenen Schutzgeräten bleibt es aus.',
      'Niemand steht vor einem offenen Schaltschrank.',
    ],
    done: CLEAR,
    source: '29 CFR 1910.334(b)(2), kein wiederholtes Einschalten vor geklärter Ursache (aus dem Gedächtnis)',
  },
  'opening-live-device': {
    title: 'Das Öffnen dieses Schutzgeräts kann den Rest wiederbringen',
    points: [MOTION, STORED, 'Eine Sicherung wird nie unter Last gezogen: dafür ist das Netzteil aus.'],
    done: CLEAR,
    source: 'EN 50110-1, Sicherungen und Stecker ohne Last (aus dem Gedächtnis); übliche Praxis, ohne Quelle',
  },
  'not-extra-low-voltage': {
    title: 'Halt. Das sind keine 24 V',
    points: [
      'Nimm die Messspitzen weg. Berühre nichts im Schaltschrank.',
      'Schalte die Maschine übergeordnet frei und verschließe sie.',
      'Halte andere von der Maschine fern.',
      'Ruf eine Elektrofachkraft.',
    ],
    done: 'Sitzung ist beendet',
    source: '60 V DC, 25 V AC: Grenzen ohne Basisschutz, trocken, IEC 60364-4-41:2005, 414.4.5 (60 V aus dem Gedächtnis)',
  },
  'voltage-stays': {
    title: 'Spannung ist noch da: finde, woher sie kommt',
    points: [
      'Eine Spannung, die bleibt oder steigt, kommt von einem anderen Netzteil, einem Puffermodul oder einem Kondensator.',
      'Der verschlossene Schalter kann der falsche sein.',
      'Keine Ohm und keine gelöste Ader, bis spannungsfrei ist.',
      'Ist die Quelle gefunden und aus, wird die Spannungsfreiheit neu festgestellt.',
    ],
    done: 'Quelle gefunden und aus',
    source: '29 CFR 1910.333(b)(2)(ii)(C), gespeicherte Energie; (b)(2)(iv), Rückspeisung',
  },
  'mains-side': {
    title: 'Arbeit an der Netzseite: wer sie macht',
    points: [
      'Eine Elektrofachkraft ist hier und macht die Arbeit an der Netzseite.',
      'Sie schaltet das Netz frei, sichert es und prüft es spannungsfrei, bevor eine Abdeckung geöffnet wird.',
      'Die örtlichen Vorschriften sagen, wer dafür befähigt oder zugelassen ist.',
      'Ohne eine solche Person wird die Arbeit übergeben: „Geht nicht“ antippen.',
    ],
    done: 'Elektrofachkraft ist da',
    source: '29 CFR 1910.333(c)(2), befähigte Personen; EN 50110-1 und NFPA 70E (beide aus dem Gedächtnis)',
  },
}
