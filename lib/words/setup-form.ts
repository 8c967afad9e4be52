/**
 * The words of setup's forms that are not the title of a field: heads of parts, margin notes, choices.
 */

export const CENTRE_FORM = {
  doorsNote: 'A closed door is never offered for now. Times are those of the network.',
  takesHead: 'What it takes',
  takesNote: 'A group that is not ticked is not offered here.',
  offersHead: 'Standing offers',
  offersNote: 'Places that the desk fills without asking. Beyond them the centre is asked first.',
  offersFold: 'Groups without an offer',
} as const
