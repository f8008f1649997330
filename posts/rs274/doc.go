// Package rs274 writes and reads programs in word-address languages:
// RS274/NGC version 3 (NISTIR 6556, Kramer, Proctor and Messina, 2000) and
// plain ISO 6983-1, in the dialect that a machine file describes.
//
// The writer states every mode that it relies on, gives a feed with every
// feed mode, writes angles as absolute wrapped degrees, and keeps to ASCII
// and to the line length of the dialect. The reader turns text back into
// motion of the axes; it knows nothing of the writer.
package rs274
