/** Holds the documents to their promises. */
package org.gerdy.cli.document;
