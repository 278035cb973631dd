// Español de cómo están los lugares unos junto a otros, y de lo que se comparte.
import { UnitSystem } from '../../gen/freshet/v1/member_pb';
import type { Words } from '../words';
import type { Say } from '../say';

export const together = (say: Say): Pick<Words, 'together'> => {
  const american = say.units === UnitSystem.US_CUSTOMARY;
  const [weight, ground, water] = american ? ['libra', 'pie cuadrado', 'galones'] : ['kilo', 'metro cuadrado', 'litros'];
  const each = american ? 'cada libra' : 'cada kilo';
  return {
    together: {
      title: 'Juntos', lead: 'La misma medida para cada lugar que la comparte, cada una con su intervalo. Donde los intervalos se solapan, nadie va por delante.',
      measure: { 1: `Producto de un ${ground} en un año`, 2: `Pienso por ${weight} de pez`, 3: 'Peces que viven', 4: `Agua por ${weight}`, 5: `Electricidad por ${weight}`, 6: `Trabajo por ${weight}` },
      own: 'el nuestro', member: 'el lugar de un socio', group: 'todos',
      rank: (low, high, n) => (low === high ? `puesto ${say.places(low, 0)} de ${say.places(n, 0)}` : `en cualquier puesto del ${say.places(low, 0)} al ${say.places(high, 0)} de ${say.places(n, 0)}`),
      n: (n) => say.count(n, { one: '# lugar', other: '# lugares' }), days: (n) => say.count(n, { one: '# día anotado', other: '# días anotados' }),
      leftOut: (n, why) => `${say.count(n, { one: '# lugar fuera', other: '# lugares fuera' })}: ${why}`,
      why: {
        'fewer than 4 months with feed noted on half the days': 'menos de 4 meses con pienso anotado la mitad de los días', 'no month in which both it and others harvested': 'ningún mes en que cosecharan tanto él como otros',
        'no beds with a known area': 'ninguna cama de superficie conocida', 'it was noted in fewer than 4 of the months with feed noted': 'esto se anotó en menos de 4 de los meses que cuentan', 'what was noted comes to nothing': 'lo anotado suma nada', 'nothing was harvested': 'sin cosecha', 'fish were not weighed often enough': 'peces pesados muy pocas veces', 'no fish were stocked': 'no entraron peces',
      },
      mean: (value, low, high) => `La media del grupo es ${value}, 9 veces de 10 entre ${low} y ${high}.`,
      about: (value) => `La media del grupo es ${value}, más o menos.`, coarse: 'Hace poco un lugar dejó esta comparación. Hasta que otros hayan venido o se hayan ido, solo se muestran esta media y el nuestro, para que nadie deduzca la cifra de quien se fue.',
      alike: 'Los lugares no se distinguen más de lo que haría el azar: no hay orden que decir.',
      notAmong: 'El nuestro no está entre ellos: no se comparte, le falta lo que pide esta medida, o espera. Los recién llegados solo se cuentan cuando han venido bastantes socios juntos, para que nadie deduzca su cifra.',
      year: 'En un mismo año', yearLead: 'Quien solo anota el verano parece el mejor. Por eso cada lugar se pone en los mismos doce meses, por lo que cada mes dio en los lugares que lo anotaron, antes de dibujarlo arriba.',
      months: (n) => `${say.places(n, 0)} de 12 meses`, monthsHead: 'meses', span: (from, to) => `Meses de ${from} a ${to}.`, asNoted: 'según lo anotado', ofYear: 'un año entero',
      oneYear: (noted, n, year, low, high) => `El nuestro dio ${noted} en ${say.count(n, { one: 'el mes que cuenta', other: 'los # meses que cuentan' })}. Un año entero como el de todos da ${year}, 9 veces de 10 entre ${low} y ${high}.`,
      stands: (low, high, n) => (low === high ? `El nuestro está en el puesto ${low} de ${n}.` : `El nuestro está en cualquier puesto del ${low} al ${high} de ${n}: hay pocos datos para afinar más.`),
      apart: (n, others) => (n === 0 ? `No se distingue de ninguno de los otros ${others}.` : `Se distingue de ${n} de los otros ${others}; de esos, hasta 1 de cada 10 puede ser por azar.`),
      tenfold: (ratio, low, high) => `¿Diez veces la cosecha de la tierra, como se suele decir? Un ${ground} de nuestro circuito dio ${ratio} veces lo que uno de nuestra tierra, 9 veces de 10 entre ${low} y ${high}.`,
      tenfoldYear: 'Hace falta un año entero para saberlo: la tierra solo da en su temporada.', tenfoldNo: 'Así que aquí no.', tenfoldYes: 'Así que aquí sí.', tenfoldOpen: 'Así que no se puede saber.',
      tenfoldNot: 'Los cultivos del circuito y de la tierra no eran los mismos, y no se cuenta el suelo bajo tanques y caminos.',
      tenth: (share, field, low, high) => `¿La décima parte del agua, como se suele decir? Nuestro circuito tomó ${share} veces los ${field} de lluvia y riego que toman las hortalizas del campo, 9 veces de 10 entre ${low} y ${high}.`,
      tenthYear: 'Hace falta un año entero para saberlo: el agua se evapora en su temporada.', tenthMore: 'Así que más que el campo.',
      tenthNot: 'Los campos difieren varias veces entre sí, y mucha de su agua es lluvia que cae de todos modos: es una vara de medir, no el campo de al lado.',
      nearest: (n, value) => `La media de los ${say.places(n, 0)} lugares más cercanos al nuestro en clima, tamaño y especie es ${value}, más o menos.`,
      soil: 'Nuestra propia tierra, la misma medida', asOf: (when) => `Según lo oído ${when}.`, invented: 'Las cifras de esta cooperativa son inventadas, como el cuaderno.', definition: 'Qué se mide',
      define: {
        1: `Lo recogido, según se pesó al cosechar, por cada ${ground} de camas en circuitos y cada año anotado. Las camas cuentan estén plantadas o no.`, 2: `Pienso dado por ${each} que los peces ganaron vivos. Lo que habían ganado los muertos también cuenta.`,
        3: 'De cada cien peces que entraron, los vivos o aprovechados, de grupos que viven o entraron en ese tiempo.', 4: `Agua añadida a los circuitos, en ${water}, por ${each} de producto y pez sacado de ellos. Solo cuentan los meses en que se anotó algo: de uno sin nada no se sabe que no la hubiera.`,
        5: `Electricidad según el contador, en kilovatios hora, por ${each} de producto y pez. Solo cuentan los meses medidos más de la mitad, llevados al mes entero.`, 6: `Trabajo anotado, en horas, por ${each} de producto y pez. Solo los meses en que se anotó algo, de lugares que comparten su trabajo.`,
      },
      method: 'Lugares como efectos aleatorios (verosimilitud restringida), sus intervalos según Hartung y Knapp 2001; la cifra de cada lugar es un cociente de sumas de meses (Cochran 1977), puesto en un mismo año por lo que cada mes dio en los lugares que lo anotaron (Andersen 1977), acercado al grupo cuanto menos hay anotado.',
      gone: 'Lo oído antes se ha apartado: alguien puede haber retirado lo suyo.',
      notJoined: 'Solo, un circuito únicamente puede compararse con su propio pasado. En una cooperativa, los lugares que comparten una medida aparecen aquí juntos.', ask: 'Preguntando a la cooperativa',
      sharing: 'Lo que compartimos', sharingLead: 'Cada clase de registro por separado. Privado: nadie. Cifras: se cuenta sin el nombre. Con nombre: con el nombre. Abierto: otros pueden leer los registros. Se puede retirar en cualquier momento.',
      level: { 1: 'privado', 2: 'cifras', 3: 'con nombre', 4: 'abierto' },
      kinds: { all: 'Todo menos trabajo, dinero, notas y fotos', labour: 'Trabajo', energy: 'Electricidad', expense: 'Dinero' },
      invite: 'Invitar a alguien', inviteLead: '¿Para quién?', role: { 1: 'responsable', 2: 'cultivador', 3: 'ayudante aquí', 4: 'lector' }, valid: (when) => `Vale para una persona, hasta el ${when}. Que la lea con la cámara, o léesela.`,
    },
  };
};
