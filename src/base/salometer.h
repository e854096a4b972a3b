/* The degrees of a salometer, which readers, model and pages share. */
#ifndef BASE_SALOMETER_H
#define BASE_SALOMETER_H

/* Salt in brine that is saturated at 60 °F (15.6 °C), fraction by mass: 100 degrees of the
 * salometer (a brine table of seafood training, looked up). A scale of the canning trade puts its
 * 100 degrees at 25 %, and is not meant. */
#define SALOMETER_SATURATED 0.26395
#define SALOMETER_DEGREES 100

#endif
