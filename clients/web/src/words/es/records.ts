// Spanish for what is written of the place, the diary, tags and the camera.
import { CohortPurpose } from '../../gen/freshet/v1/cohort_pb';

export const records = () => ({
  purpose: { [CohortPurpose.UNSPECIFIED]: 'para comer', [CohortPurpose.TABLE]: 'para comer', [CohortPurpose.SENTINEL]: 'para avisar de apuros', [CohortPurpose.BREEDING]: 'para criar' } as Record<number, string>,
  build: {
    kind: { site: 'El lugar', vessel: 'Un recipiente', bed: 'Una cama', cohort: 'Peces', equipment: 'Una bomba o lámpara', feed: 'Un pienso', crop: 'Lo que come la casa' },
    field: {
      name: 'Cómo se llama', kind: 'Qué es', volumeL: 'Agua que contiene', after: 'El agua le llega de', flowLPerH: 'Agua que pasa', mediaVolumeL: 'Grava o soportes dentro',
      mediaSpecificSurfaceM2PerM3: 'Superficie de la grava o los soportes', areaM2: 'Área para plantas', vesselId: 'Dónde está', covered: 'A cubierto', species: 'Qué peces', purpose: 'Para qué',
      targetWeightG: 'Peso con que se quieren', powerW: 'Potencia', onBackup: 'Sigue si falla la red', proteinPercent: 'Proteína, según el saco', crop: 'Cultivo', useKgPerWeek: 'Se usa en una semana',
      elevationM: 'Altura sobre el mar', lastFrost: 'Última helada de primavera, mes-día', firstFrost: 'Primera helada de otoño, mes-día', householdPeople: 'Personas que comen de aquí',
      sourceAlkalinityMgPerL: 'Alcalinidad del agua que añades', sourceNitrateMgPerL: 'Nitrato del agua que añades',
    },
    add: 'Añadir',
    words: 'Aquí nunca se escribe cuántos peces viven: se sigue de lo que anotas como entrados, muertos y sacados.',
    write: 'Escribirlo', remove: 'Quitarlo', sure: 'Lo anotado sobre ello se queda, pero no estará en ningún sitio. ¿Quitarlo?', yes: 'Sí, quitarlo',
    gone: (name: string) => `${name}: quitado`,
    between: (low: string, high: string) => `Va de ${low} a ${high}.`, notANumber: 'Eso no es un número.', frost: 'Mes y día, como 05-20.',
    protein: (percent: string) => `${percent} % de proteína`,
    week: (amount: string) => `${amount} a la semana`,
    noUse: 'Aún sin decir.',
  },
  diary: {
    photoElsewhere: 'La foto aún no ha llegado: está en el teléfono con que se hizo, o no hay señal.', photoWhole: 'Mostrar la foto entera', photoAgain: 'Buscarla otra vez',
    empty: 'En estos días no se anotó nada.', before: 'La semana anterior', takeBack: 'Retirarlo', taken: 'retirado', corrected: 'corregido', probe: 'Aquí no salen las sondas.', only: 'Aún solo en este teléfono.',
    today: 'Hoy', yesterday: 'Ayer',
  },
  place: {
    written: 'Lo escrito aquí', noted: 'Lo último anotado aquí', stands: 'Lo que hay plantado', stood: 'Lo que hubo', gave: (amount: string, from: string, to: string) => `${amount}, del ${from} al ${to}`,
    change: 'Cambiar lo escrito', tag: 'Imprimir su etiqueta', unknown: 'Este sitio no está en el cuaderno de este teléfono.', read: 'Medido aquí', nothingRead: 'Aún no se midió nada aquí.',
  },
  tags: {
    title: 'Etiquetas para tanques y camas', lead: 'Imprime, corta, cubre con cinta. Leída con la cámara, cada una abre su sitio.', scan: 'Leer una etiqueta', scanLead: 'Pon una etiqueta, o el código de una invitación, delante de la cámara.',
    refused: 'No se permitió la cámara. No se pierde nada: elige el sitio en la lista o escribe el código.', none: 'Este teléfono no tiene cámara que sirva aquí. Elige el sitio en la lista o escribe el código.',
    foreign: 'Ese código no es de los nuestros.', picture: 'Leer una imagen', unread: 'No se pudo leer ningún código en esa imagen.', looking: 'Mirando',
  },
  whatIf: {
    title: '¿Y si…?', lead: 'Mueve un número y mira.', would: (value: string) => `Sería ${value}.`, over: (limit: string) => `Eso pasa del límite de ${limit}.`, under: (limit: string) => `Eso queda dentro del límite de ${limit}.`, least: (limit: string) => `Los peces quieren al menos ${limit}.`, reset: 'Como está', refuses: 'Ninguna fórmula llega ahí.',
  },
});
