using System.Xml;

namespace Sandarac.Studio;

/// <summary>Whether a text can be kept and printed: documents and drawings are XML, which has no room for control signs.</summary>
internal static class ReadableText
{
    public static bool IsReadable(string text)
    {
        try
        {
            XmlConvert.VerifyXmlChars(text);
            return true;
        }
        catch (XmlException)
        {
            return false;
        }
    }
}
