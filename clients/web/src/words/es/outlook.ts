// Español del agua en los días que vienen.
import { UnitSystem } from '../../gen/freshet/v1/member_pb';
import type { Say } from '../say';
import type { Words } from '../words';

export const outlook = (say: Say): Pick<Words, 'outlook'> => ({
  outlook: {
    title: 'El agua que viene', working: 'Aprendiendo este circuito de sus últimas seis semanas …',
    broken: 'Los días que vienen no se pudieron calcular en este teléfono. Nada se perdió: ve a otra página y vuelve.',
    noVolume: 'Los días que vienen no se pueden decir: ningún recipiente de este circuito tiene anotado su volumen.',
    refused: (why) => `Los días que vienen no se pueden decir, un número está donde no puede (${why}). Corrígelo en el diario.`,
    nothingRead: 'No se leyó nada en seis semanas, así que nada se puede prever. Lee la temperatura del agua, y prueba amonio y pH.',
    calm: (days) => `Es poco probable que algo de lo leído pase su límite en ${say.count(days, { one: 'el próximo día', other: 'los próximos # días' })}: cada día menos de 1 de cada 10 para cada cosa.`,
    calmYet: (what, days) => `${what}: ahora no está bien, según las últimas pruebas. Aun así es poco probable que se pase un límite en ${say.count(days, { one: 'el próximo día', other: 'los próximos # días' })}, cada día menos de 1 de cada 10: la previsión toma la última prueba por un error, o que el agua se recupera. Prueba otra vez antes de confiar en ello.`,
    besides: (what, coming) => `${what}: ahora no está bien, según las últimas pruebas. ${coming}`,
    passes: (what, least, limit, on, inTen) => `${what}: puede ${least ? 'bajar de' : 'pasar de'} ${limit} el ${on}, ${inTen} de cada 10.`,
    key: 'Línea: el medio. Franja: debe acertar 8 de cada 10 veces. Cuanto más lejos, más se supone que algo sigue como en la última semana. Todo supone que pienso, peces y tiempo siguen como últimamente; lo que se rompe o enferma no entra. Los peces en la superficie avisan antes que cualquier número.',
    name: { temperature: 'temperatura', oxygen: 'oxígeno', unionized: 'amoníaco dañino', ammonia: 'amonio', nitrite: 'nitrito', nitrate: 'nitrato', ph: 'acidez (pH)', alkalinity: 'alcalinidad' },
    of: { temperature: 'media del día', oxygen: 'en su hora más baja', unionized: 'en su hora más alta', ammonia: 'media del día', nitrite: 'media del día', nitrate: 'media del día', ph: 'en su hora más baja', alkalinity: 'media del día' },
    unit: { temperature: '', oxygen: 'mg/L', unionized: 'mg/L como N', ammonia: 'mg/L como N', nitrite: 'mg/L como N', nitrate: 'mg/L como N', ph: '', alkalinity: 'mg/L como CaCO₃' },
    test: { temperature: 'Leer la temperatura del agua', oxygen: 'Leer el oxígeno', unionized: '', ammonia: 'Una prueba de amonio', nitrite: 'Una prueba de nitrito', nitrate: 'Una prueba de nitrato', ph: 'Leer el pH', alkalinity: 'Una prueba de alcalinidad' },
    narrowed: (test, percent) => `${test} ahora haría la franja un ${percent} por ciento más estrecha.`,
    by: (on, low, high, middle) => `Para el ${on} entre ${low} y ${high}, tan probable por debajo de ${middle} como por encima.`,
    otherwise: (low, high, middle) => `Si fuera así, de ${low} a ${high}, tan probable por debajo de ${middle} como por encima.`,
    least: (limit) => `No debería bajar de ${limit}.`, most: (limit) => `No debería pasar de ${limit}.`, day: 'Día',
    daily: 'Día a día', others: (names) => `Sin límite: ${names}`,
    howFar: 'Hasta cuándo', days: (n) => say.count(n, { one: '# día', other: '# días' }),
    wonder: 'Y si', asOfLate: 'todo sigue igual', ifSo: (sentence) => `Si fuera así: ${sentence}`,
    wonders: {
      unfed: 'dos días sin pienso', half: 'la mitad del pienso', more: 'la mitad más de pienso', get fish() { return `${say.amount('mass', 10_000, 2)} más de peces, alimentados como los demás`; },
      still: 'mañana bomba y aire parados seis horas', cold: `el aire ${say.units === UnitSystem.US_CUSTOMARY ? '9 °F' : '5 °C'} más frío`, warm: `el aire ${say.units === UnitSystem.US_CUSTOMARY ? '9 °F' : '5 °C'} más cálido`, water: 'cada día un décimo de agua nueva',
    },
    untried: 'Aún no se pudo comprobar aquí ninguna previsión así: hacen falta unas semanas de lecturas.',
    kept: (held, tried) => `Comprobado con las últimas seis semanas: de ${say.count(tried, { one: '# lectura prevista', other: '# lecturas previstas' })} hasta dos semanas antes, ${say.number(held, 6)} cayeron en su franja de 8 de cada 10. Según cuánto se desviaron, las franjas de arriba son más anchas o más estrechas.`,
    rests: 'Trescientas conjeturas de este circuito, cada una según lo publicado, dobladas por sus propias lecturas (Evensen 1994; Burgers et al. 1998). Calculado en este teléfono, con lo que guarda.',
  },
});
