// English names of crops and fish.

/** By the crop table's names. */
export const crop: Record<string, string> = {
  lettuce: 'lettuce', chard: 'chard', kale: 'kale', collards: 'collards', cabbage: 'cabbage', 'chinese cabbage': 'chinese cabbage', spinach: 'spinach',
  'pak choi': 'pak choi', 'mustard greens': 'mustard greens', amaranth: 'amaranth', arugula: 'arugula', watercress: 'watercress', endive: 'endive',
  celery: 'celery', 'water spinach': 'water spinach', 'malabar spinach': 'malabar spinach', broccoli: 'broccoli', cauliflower: 'cauliflower',
  tomato: 'tomato', 'cherry tomato': 'cherry tomato', 'sweet pepper': 'sweet pepper', 'hot pepper': 'hot pepper', cucumber: 'cucumber',
  muskmelon: 'muskmelon', 'honeydew melon': 'honeydew melon', watermelon: 'watermelon', 'summer squash': 'summer squash', 'winter squash': 'winter squash',
  pumpkin: 'pumpkin', eggplant: 'eggplant', okra: 'okra', 'sweet corn': 'sweet corn', 'bush bean': 'bush bean', 'pole bean': 'pole bean',
  'yardlong bean': 'yardlong bean', pea: 'pea', onion: 'onion', scallion: 'scallion', garlic: 'garlic', leek: 'leek', beet: 'beet', carrot: 'carrot',
  radish: 'radish', turnip: 'turnip', kohlrabi: 'kohlrabi', parsnip: 'parsnip', potato: 'potato', 'sweet potato': 'sweet potato', taro: 'taro',
  basil: 'basil', parsley: 'parsley', cilantro: 'cilantro', dill: 'dill', fennel: 'fennel', mint: 'mint', 'lemon balm': 'lemon balm', oregano: 'oregano',
  thyme: 'thyme', sage: 'sage', rosemary: 'rosemary', marjoram: 'marjoram', chives: 'chives', chamomile: 'chamomile', strawberry: 'strawberry', fig: 'fig',
  citrus: 'citrus', blackberry: 'blackberry', raspberry: 'raspberry', blueberry: 'blueberry', grape: 'grape', banana: 'banana', papaya: 'papaya',
  'passion fruit': 'passion fruit', guava: 'guava', asparagus: 'asparagus', rhubarb: 'rhubarb',
};

/** By the species table's names. */
export const species: Record<string, string> = {
  nile_tilapia: 'Nile tilapia', blue_tilapia: 'blue tilapia', red_tilapia: 'red tilapia', goldfish: 'goldfish', common_carp: 'carp', koi: 'koi',
  channel_catfish: 'channel catfish', rainbow_trout: 'rainbow trout', yellow_perch: 'yellow perch', barramundi: 'barramundi', silver_perch: 'silver perch',
};
