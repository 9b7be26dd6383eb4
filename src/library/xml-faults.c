#include "library/xml-faults.h"

#include <glib/gi18n.h>

/* What the parser stumbles over, in our words. */

static const struct { int code; const char *words; } faults[] = {
  { XML_ERR_DOCUMENT_EMPTY, N_("the file begins with no element, it needs a root such as <procedure>") },
  { XML_ERR_DOCUMENT_END, N_("something follows the end of the root element, take it out") },
  { XML_ERR_INVALID_CHAR, N_("a control character has no place in a text, take it out") },
  { XML_ERR_INVALID_CHARREF, N_("&#…; names no character, write the character itself") },
  { XML_ERR_INVALID_HEX_CHARREF, N_("&#x…; names no character, write the character itself") },
  { XML_ERR_INVALID_DEC_CHARREF, N_("&#…; names no character, write the character itself") },
  { XML_ERR_NAME_REQUIRED, N_("a name is missing after < or &, write &lt; or &amp; for the sign itself") },
  { XML_ERR_ENTITYREF_SEMICOL_MISSING, N_("a & begins something that no ; ends, write &amp; for the sign itself") },
  { XML_ERR_ENTITYREF_NO_NAME, N_("a & stands alone, write &amp; for the sign itself") },
  { XML_ERR_UNDECLARED_ENTITY, N_("&…; is none of amp, lt, gt, quot and apos, write the character itself") },
  { XML_WAR_UNDECLARED_ENTITY, N_("&…; is none of amp, lt, gt, quot and apos, write the character itself") },
  { XML_ERR_ATTRIBUTE_NOT_STARTED, N_("an attribute's value has no quotes, write name=\"value\"") },
  { XML_ERR_ATTRIBUTE_NOT_FINISHED, N_("an attribute's value is not ended, close its quotes") },
  { XML_ERR_ATTRIBUTE_WITHOUT_VALUE, N_("an attribute has no value, write name=\"value\"") },
  { XML_ERR_LT_IN_ATTRIBUTE, N_("a < stands in an attribute's value, close the quotes before it or write &lt;") },
  { XML_ERR_SPACE_REQUIRED, N_("a space is missing here, put one between the attributes") },
  { XML_ERR_GT_REQUIRED, N_("a tag is not ended, close it with >") },
  { XML_ERR_LT_REQUIRED, N_("a tag is not begun, write < before its name") },
  { XML_ERR_LTSLASH_REQUIRED, N_("an end tag is missing, write </…>") },
  { XML_ERR_EQUAL_REQUIRED, N_("a = is missing after an attribute's name, write name=\"value\"") },
  { XML_ERR_COMMENT_NOT_FINISHED, N_("a comment is not ended, close it with -->") },
  { XML_ERR_HYPHEN_IN_COMMENT, N_("a comment holds --, take it out") },
  { XML_ERR_CDATA_NOT_FINISHED, N_("a <![CDATA[ is not ended, close it with ]]>") },
  { XML_ERR_MISPLACED_CDATA_END, N_("a text holds ]]>, write ]]&gt;") },
  { XML_ERR_PI_NOT_STARTED, N_("a <? has no name, take it out") },
  { XML_ERR_PI_NOT_FINISHED, N_("a <?…?> is not ended, close it with ?>") },
  { XML_ERR_RESERVED_XML_NAME, N_("<?xml …?> stands in the wrong place, it is the very first thing of a file") },
  { XML_ERR_XMLDECL_NOT_STARTED, N_("<?xml is not followed by a space, begin the file with <?xml version=\"1.0\"?>") },
  { XML_ERR_XMLDECL_NOT_FINISHED, N_("<?xml is not ended, begin the file with <?xml version=\"1.0\"?>") },
  { XML_ERR_VERSION_MISSING, N_("<?xml …?> says no version, begin the file with <?xml version=\"1.0\"?>") },
  { XML_ERR_UNKNOWN_VERSION, N_("this is another version of XML, begin the file with <?xml version=\"1.0\"?>") },
  { XML_ERR_STANDALONE_VALUE, N_("standalone is neither yes nor no, leave it out") },
  { XML_ERR_DOCTYPE_NOT_FINISHED, N_("a document type is refused, leave <!DOCTYPE …> out") },
  { XML_ERR_TAG_NOT_FINISHED, N_("the file ends before its elements do, it may have been cut short") },
  { XML_NS_ERR_QNAME, N_("a name has a colon where none may be, take it out") },
  { XML_NS_ERR_COLON, N_("a name has a colon where none may be, take it out") },
  { XML_NS_ERR_EMPTY, N_("xmlns:…=\"\" gives a prefix no namespace, leave it out") },
  { XML_NS_ERR_XML_NAMESPACE, N_("a prefix or namespace that XML keeps for itself is declared, leave it out") },
};

static char *
named_words (const xmlError *fault)
{
  switch (fault->code)
    {
    case XML_ERR_TAG_NAME_MISMATCH:
      return g_strdup_printf (_("<%s> is ended by </%s>, end it with </%s>"), fault->str1,
                              fault->str2 ? fault->str2 : "…", fault->str1);
    case XML_ERR_ATTRIBUTE_REDEFINED:
    case XML_NS_ERR_ATTRIBUTE_REDEFINED:
      return g_strdup_printf (_("attribute “%s” is given twice, leave one out"), fault->str1);
    case XML_NS_ERR_UNDEFINED_NAMESPACE:
      return g_strdup_printf (_("prefix “%s” has no namespace, leave the prefix and its colon out"),
                              fault->str1);
    case XML_ERR_UNDECLARED_ENTITY:
      return g_strdup_printf (_("&%s; is none of amp, lt, gt, quot and apos, write the character itself"),
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
      return g_strdup (_(faults[i].words));
  return g_strdup (_("this is not well-formed XML, look at the tags, quotes and ends near here"));
}
