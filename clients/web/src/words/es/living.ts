// Spanish names of crops and fish. Names differ between countries; a grower may set their own for each crop.

/** By the crop table's names. */
export const crop: Record<string, string> = {
  lettuce: 'lechuga', chard: 'acelga', kale: 'col rizada', collards: 'berza', cabbage: 'repollo', 'chinese cabbage': 'col china', spinach: 'espinaca',
  'pak choi': 'pak choi', 'mustard greens': 'hojas de mostaza', amaranth: 'amaranto', arugula: 'rúcula', watercress: 'berro', endive: 'escarola',
  celery: 'apio', 'water spinach': 'espinaca de agua', 'malabar spinach': 'espinaca de Malabar', broccoli: 'brócoli', cauliflower: 'coliflor',
  tomato: 'tomate', 'cherry tomato': 'tomate cereza', 'sweet pepper': 'pimiento dulce', 'hot pepper': 'chile', cucumber: 'pepino', muskmelon: 'melón',
  'honeydew melon': 'melón tuna', watermelon: 'sandía', 'summer squash': 'calabacín', 'winter squash': 'calabaza de invierno', pumpkin: 'calabaza',
  eggplant: 'berenjena', okra: 'quingombó', 'sweet corn': 'maíz dulce', 'bush bean': 'frijol de mata', 'pole bean': 'frijol trepador',
  'yardlong bean': 'frijol espárrago', pea: 'guisante', onion: 'cebolla', scallion: 'cebolleta', garlic: 'ajo', leek: 'puerro', beet: 'remolacha',
  carrot: 'zanahoria', radish: 'rábano', turnip: 'nabo', kohlrabi: 'colinabo', parsnip: 'chirivía', potato: 'papa', 'sweet potato': 'camote', taro: 'malanga',
  basil: 'albahaca', parsley: 'perejil', cilantro: 'cilantro', dill: 'eneldo', fennel: 'hinojo', mint: 'menta', 'lemon balm': 'melisa', oregano: 'orégano',
  thyme: 'tomillo', sage: 'salvia', rosemary: 'romero', marjoram: 'mejorana', chives: 'cebollino', chamomile: 'manzanilla', strawberry: 'fresa', fig: 'higo',
  citrus: 'cítricos', blackberry: 'mora', raspberry: 'frambuesa', blueberry: 'arándano', grape: 'uva', banana: 'plátano', papaya: 'papaya',
  'passion fruit': 'maracuyá', guava: 'guayaba', asparagus: 'espárrago', rhubarb: 'ruibarbo',
};

/** By the species table's names. */
export const species: Record<string, string> = {
  nile_tilapia: 'tilapia del Nilo', blue_tilapia: 'tilapia azul', red_tilapia: 'tilapia roja', goldfish: 'carpa dorada', common_carp: 'carpa', koi: 'koi',
  channel_catfish: 'bagre de canal', rainbow_trout: 'trucha arcoíris', yellow_perch: 'perca amarilla', barramundi: 'barramundi',
  silver_perch: 'perca plateada',
};
