import { hexToBytes } from '@noble/hashes/utils.js';

/**
 * 256 plain words, one for each value of a byte, chosen for this program: no two begin with the same four letters, none sounds like
 * another word of the list. Never edited: what was printed with it must read the same for ever.
 */
const WORDS = [
  'acorn acre alley anchor angle apron arbor arrow attic autumn badger bamboo barn barrel basket beacon',
  'beetle bell bench birch blanket blossom boat bolt border bottle boulder bramble brass bread brick bridge',
  'brook bucket bundle button cabin cable camel candle canoe carpet castle cedar cellar chalk cherry chimney',
  'circle clay cliff clock cloud clover coach cobble collar comet copper coral corner cotton cradle crane',
  'cricket crown cushion daisy dawn delta desert dipper donkey door dragon drum dune eagle early east',
  'echo eighty elbow elder ember engine fabric falcon farm feather fence fern fiddle field finch flag',
  'flint flute forest fossil fountain frost furrow gable garden gate ginger glacier glove goat goose gorge',
  'granite grass gravel grove guitar gully hammer harbor harvest hatch hawk hazel hedge heron hill hinge',
  'honey hoof horn hotel hundred island ivory jacket jasper jetty jigsaw juniper kettle kitchen kite ladder',
  'lagoon lamp lantern larch lattice leaf ledge lemur lily linen lizard lobster loom lumber maple marble',
  'market marsh meadow melody mitten moon mortar moss mountain mule museum napkin needle nest north novel',
  'nutmeg oak oasis oboe ocean olive onion orchard otter oven owl oyster paddle paper parsley pasture',
  'pebble pencil pepper piano pigeon pillow pine plank plaster pocket pond poplar porch potter prairie pulley',
  'purple quail quarry quilt rabbit rafter rainbow raven reindeer ribbon ridge river robin rope rowan rudder',
  'saddle sailor sandal scarf seven shelf shovel silver sketch slate spade sparrow spruce statue swan tailor',
  'temple thimble tiger timber tower tulip tunnel turnip valley velvet violet walnut willow window winter wool',
]
  .join(' ')
  .split(' ');

/** So many words stand for a link. */
const SHORT = 8;

/**
 * The first eight bytes of a link (hex) as words, to be read out and compared by eye. Sixty-four bits: enough to notice another head,
 * and far too many to make one on purpose that reads the same; the whole link stands in the code beside them.
 */
export const wordsOf = (link: string): string => [...hexToBytes(link.slice(0, 2 * SHORT))].map((byte) => WORDS[byte] ?? '').join(' ');
