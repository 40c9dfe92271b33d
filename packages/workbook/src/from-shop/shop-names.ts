/**
 * Names of inputs that are the shop's and not one workbook's: what an hour costs, how wide the saw cuts, what a bottle of
 * glue holds. A workbook takes them from the workbook of the shop, where that has an input of the same name.
 */
export const SHOP_NAMES: ReadonlySet<string> = new Set([
  // What it charges and how it works.
  'hourly_rate',
  'overhead_percent',
  'profit_percent',
  'deposit_percent',
  'second_percent',
  'tax_percent',
  'round_step',
  'hours_a_day',
  'hours_least',
  'hours_most',
  'spare_percent',
  'lift_alone',
  // Its machines and clamps.
  'kerf',
  'end_trim',
  'jointer_width',
  'joint_loss',
  'trim_length',
  'at_once',
  'clamp_rating',
  'clamp_spacing',
  'clamp_end',
  'clamp_pressure',
  // Its glue and finish.
  'glue_price',
  'glue_bottle',
  'glue_wait',
  'sand_rate',
  'grit_last',
  'coverage',
  'finish_loss',
  'first_coat_more',
  'recoat_hours',
  // What a yard asks for a wood that is not in its list.
  'other_wood_price',
  // Days after which it asks its yard again.
  'price_days',
]);
