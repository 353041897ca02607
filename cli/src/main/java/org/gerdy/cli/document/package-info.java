/** Documents in the patient's and the clinician's hand: content as blocks, templates for HTML and text, PDF from the HTML. */
@NullMarked
package org.gerdy.cli.document;

import org.jspecify.annotations.NullMarked;
