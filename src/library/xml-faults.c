#include "library/xml-faults.h"

/* What the parser stumbles over, in our words. */

static const struct { int code; const char *words; } faults[] = {
  { XML_ERR_DOCUMENT_EMPTY, "the file begins with no element, it needs a root such as <procedure>" },
  { XML_ERR_DOCUMENT_END, "something follows the end of the root element, take it out" },
  { XML_ERR_INVALID_CHAR, "a control character has no place in a text, take it out" },
  { XML_ERR_INVALID_CHARREF, "&#…; names no character, write the character itself" },
  { XML_ERR_INVALID_HEX_CHARREF, "&#x…; names no character, write the character itself" },
  { XML_ERR_INVALID_DEC_CHARREF, "&#…; names no character, write the character itself" },
  { XML_ERR_NAME_REQUIRED, "a name is missing after < or &, write &lt; or &amp; for the sign itself" },
  { XML_ERR_ENTITYREF_SEMICOL_MISSING, "a & begins something that no ; ends, write &amp; for the sign itself" },
  { XML_ERR_ENTITYREF_NO_NAME, "a & stands alone, write &amp; for the sign itself" },
  { XML_ERR_UNDECLARED_ENTITY, "&…; is none of amp, lt, gt, quot and apos, write the character itself" },
  { XML_WAR_UNDECLARED_ENTITY, "&…; is none of amp, lt, gt, quot and apos, write the character itself" },
  { XML_ERR_ATTRIBUTE_NOT_STARTED, "an attribute's value has no quotes, write name=\"value\"" },
  { XML_ERR_ATTRIBUTE_NOT_FINISHED, "an attribute's value is not ended, close its quotes" },
  { XML_ERR_ATTRIBUTE_WITHOUT_VALUE, "an attribute has no value, write name=\"value\"" },
  { XML_ERR_LT_IN_ATTRIBUTE, "a < stands in an attribute's value, close the quotes before it or write &lt;" },
  { XML_ERR_SPACE_REQUIRED, "a space is missing here, put one between the attributes" },
  { XML_ERR_GT_REQUIRED, "a tag is not ended, close it with >" },
  { XML_ERR_LT_REQUIRED, "a tag is not begun, write < before its name" },
  { XML_ERR_LTSLASH_REQUIRED, "an end tag is missing, write </…>" },
  { XML_ERR_EQUAL_REQUIRED, "a = is missing after an attribute's name, write name=\"value\"" },
  { XML_ERR_COMMENT_NOT_FINISHED, "a comment is not ended, close it with -->" },
  { XML_ERR_HYPHEN_IN_COMMENT, "a comment holds --, take it out" },
  { XML_ERR_CDATA_NOT_FINISHED, "a <![CDATA[ is not ended, close it with ]]>" },
  { XML_ERR_MISPLACED_CDATA_END, "a text holds ]]>, write ]]&gt;" },
  { XML_ERR_PI_NOT_STARTED, "a <? has no name, take it out" },
  { XML_ERR_PI_NOT_FINISHED, "a <?…?> is not ended, close it with ?>" },
  { XML_ERR_RESERVED_XML_NAME, "<?xml …?> stands in the wrong place, it is the very first thing of a file" },
  { XML_ERR_XMLDECL_NOT_STARTED, "<?xml is not followed by a space, begin the file with <?xml version=\"1.0\"?>" },
  { XML_ERR_XMLDECL_NOT_FINISHED, "<?xml is not ended, begin the file with <?xml version=\"1.0\"?>" },
  { XML_ERR_VERSION_MISSING, "<?xml …?> says no version, begin the file with <?xml version=\"1.0\"?>" },
  { XML_ERR_UNKNOWN_VERSION, "this is another version of XML, begin the file with <?xml version=\"1.0\"?>" },
  { XML_ERR_STANDALONE_VALUE, "standalone is neither yes nor no, leave it out" },
  { XML_ERR_DOCTYPE_NOT_FINISHED, "a document type is refused, leave <!DOCTYPE …> out" },
  { XML_ERR_TAG_NOT_FINISHED, "the file ends before its elements do, it may have been cut short" },
  { XML_NS_ERR_QNAME, "a name has a colon where none may be, take it out" },
  { XML_NS_ERR_COLON, "a name has a colon where none may be, take it out" },
  { XML_NS_ERR_EMPTY, "xmlns:…=\"\" gives a prefix no namespace, leave it out" },
  { XML_NS_ERR_XML_NAMESPACE, "a prefix or namespace that XML keeps for itself is declared, leave it out" },
};

static char *
named_words (const xmlError *fault)
{
  switch (fault->code)
    {
    case XML_ERR_TAG_NAME_MISMATCH:
      return g_strdup_printf ("<%s> is ended by </%s>, end it with </%s>", fault->str1,
                              fault->str2 ? fault->str2 : "…", fault->str1);
    case XML_ERR_ATTRIBUTE_REDEFINED:
    case XML_NS_ERR_ATTRIBUTE_REDEFINED:
      return g_strdup_printf ("attribute “%s” is given twice, leave one out", fault->str1);
    case XML_NS_ERR_UNDEFINED_NAMESPACE:
      return g_strdup_printf ("prefix “%s” has no namespace, leave the prefix and its colon out",
                              fault->str1);
    case XML_ERR_UNDECLARED_ENTITY:
      return g_strdup_printf ("&%s; is none of amp, lt, gt, quot and apos, write the character itself",
                              fault->str1);
    default:
      return NULL;
    }
}

/* "what is wrong, what would be right"; free with g_free(). */
char *
pin_xml_fault_words (const xmlError *fault)
{
  char *named = fault->str1 != NULL ? named_words (fault) : NULL;

  if (named != NULL)
    return named;
  for (size_t i = 0; i < G_N_ELEMENTS (faults); i++)
    if (faults[i].code == fault->code)
      return g_strdup (faults[i].words);
  return g_strdup ("this is not well-formed XML, look at the tags, quotes and ends near here");
}
