// Package floors holds the floor plan of the house: a test walks every import and refuses one that goes up.
package floors
