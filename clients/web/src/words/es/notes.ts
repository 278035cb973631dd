// Spanish for the note pad.
import type { Say } from '../say';

export const notes = (say: Say) => ({
  shell: {
    contents: 'Índice',
    note: 'Anotar',
    close: 'Cerrar',
    back: 'Atrás',
    waiting: (n: number) => say.count(n, { one: '# nota solo en este teléfono', other: '# notas solo en este teléfono' }),
    allSent: 'La cooperativa tiene todas las notas',
    waitingShort: (n: number) => say.count(n, { one: '# solo aquí', other: '# solo aquí' }),
    undo: 'Deshacer',
    noted: (what: string) => `Anotado: ${what}`,
    opening: 'Abriendo el cuaderno',
    notFetched: 'Esta página aún no está en el teléfono y ahora no se pudo traer. Las demás páginas funcionan.',
    again: 'Intentar otra vez',
    loop: 'El circuito',
    skip: 'Ir a la página',
  },

  kind: {
    reading: 'Medir el agua', feeding: 'Dar de comer', stocking: 'Peces que entran', weighing: 'Pesar', count: 'Contar todos', death: 'Muertos', move: 'Peces cambiados', fishHarvest: 'Peces sacados',
    sowing: 'Sembrar', transplanting: 'Trasplantar', bedHarvest: 'Cosechar', pulling: 'Arrancar', dosing: 'Echar al agua', treatment: 'Aplicar a las plantas', waterIn: 'Agua añadida', waterOut: 'Agua soltada',
    solidsOut: 'Lodo sacado', disposition: 'Qué se hizo con ello', upkeep: 'Mantenimiento', incident: 'Algo salió mal', labour: 'Tiempo dedicado', energy: 'Electricidad', expense: 'Dinero', note: 'Una nota', photo: 'Una foto',
  },
  field: {
    massG: 'peso', leftG: 'sobró', count: 'cuántos', sampleCount: 'cuántos se pesaron', piecesCount: 'piezas o frascos', areaM2: 'área', seedsCount: 'semillas', plantsCount: 'plantas', volumeL: 'cuánto',
    volumeMl: 'cuánto', minutes: 'cuánto tiempo', energyKwh: 'energía', amountMinor: 'importe',
  },
  choice: { cause: 'De qué, si se sabe', pulledFor: 'Por qué', substance: 'Qué fue', use: 'Qué se hizo con ello', upkeep: 'Qué se hizo', incident: 'Qué salió mal', waterSource: 'De dónde, si se sabe' },
  fieldUnit: { volumeMl: 'mL', minutes: 'min', energyKwh: 'kWh' },
  textField: {
    dosing: 'qué otra cosa', treatment: 'contra qué', solidsOut: 'adónde fue', disposition: 'qué se recibió', upkeep: 'con palabras', incident: 'con palabras', labour: 'en qué', expense: 'para qué', note: 'la nota', photo: 'palabras al pie',
  },

  note: {
    lacks: { which: '¿Cuál?', into: '¿Hacia cuál?', pick: 'Elige una de las palabras', photo: 'Primero haz una foto', words: 'Escribe una palabra', number: (what: string) => `¿${say.cap(what)}?` }, lately: 'Las últimas veces', 
    where: '¿Dónde?', wholeSite: 'Todo el lugar', others: 'Todo lo demás', which: '¿Cuál', into: 'hacia', words: 'con palabras', unit: 'unidad',
    keys: 'Teclas', erase: 'Borrar', below: 'Por debajo de la escala', above: 'Por encima de la escala', point: 'Coma decimal', minus: 'Menos', tests: 'Pruebas', skip: 'Saltar', next: 'Otra línea', itIsSo: 'Así es, anótalo',
    last: (value: string, ago: string) => `Último ${value}, ${ago}.`,
    first: 'Nunca se midió aquí.',
    usualHere: 'La línea ancha es lo habitual aquí.',
    usualAnywhere: 'La línea ancha es lo que muestra un circuito que funciona.',
    strange: (value: string, low: string, high: string) => `${value} está lejos de lo habitual aquí, ${low} a ${high}. ¿Es así?`,
    impossible: (low: string, high: string, unit: string) => `Ningún agua llega ahí: va de ${low} a ${high} ${unit}. Mira los dígitos y la unidad.`,
    wait: (minutes: number) => `Esperar ${minutes} minutos`, stop: 'Parar', ready: 'El color está listo: léelo ahora.',
    now: 'Ahora', hourAgo: 'Hace una hora', yesterday: 'Ayer', moment: 'Día y hora', farOff: 'Eso fue hace más de un mes, o está por venir. Se guarda como dices.',
    noPlanting: 'Aquí no hay nada plantado. Siembra algo primero.', noFish: 'Aún no hay peces apuntados en este circuito.',
    photoTake: 'Hacer una foto', photoAgain: 'Hacer otra', photoTaken: 'La foto recién hecha', photoFailed: 'Este archivo no es una imagen que se pueda leer aquí. No se guardó nada; haz otra.',
    photoStays: 'La foto va a la cooperativa cuando ya no espera ninguna nota. El lugar no se guarda en ella.',
  },
});
