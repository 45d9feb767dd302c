/** Why something could not be measured; said alike by the figures and by the curve fits. */
package leat.measure.absence;
