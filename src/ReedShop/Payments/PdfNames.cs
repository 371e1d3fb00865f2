using System.Security.Cryptography;
using System.Text;
using PdfSharp.Pdf;

namespace ReedShop.Payments;

/// <summary>Makes the same paper the same file: the library calls files and fonts by names drawn by lot.</summary>
internal static class PdfNames
{
    /// <summary>
    /// The library draws lots for the tags of embedded fonts (ISO 32000-1, 9.6.4: any six letters, others for each font):
    /// they are counted instead, so that the same paper is the same file.
    /// </summary>
    public static void TakeChanceOut(PdfDocument document)
    {
        var tags = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var part in document.Internals.GetAllObjects().OfType<PdfDictionary>())
        {
            foreach (var key in new[] { "/BaseFont", "/FontName" })
            {
                if (part.Elements.GetName(key) is { Length: > 0 } name)
                {
                    tags.TryAdd(
                        name,
                        $"/REED{(char)('A' + (tags.Count / 26))}{(char)('A' + (tags.Count % 26))}{name[7..]}"
                    );
                    part.Elements.SetName(key, tags[name]);
                }
            }
        }

        document.Internals.FirstDocumentID = document.Internals.SecondDocumentID = new string('\0', 16);
    }

    /// <summary>Calls the file by what is in it, wherever the library has drawn a name for it or was given none.</summary>
    public static byte[] NamedByContent(byte[] file)
    {
        Overwrite(file, Guid.Empty);
        Overwrite(file, new Guid(SHA256.HashData(file).AsSpan(0, 16)));
        return file;
    }

    private static void Overwrite(byte[] file, Guid name)
    {
        var id = file.AsSpan().LastIndexOf("/ID[<"u8) + 5;
        Encoding.ASCII.GetBytes($"{name:N}><{name:N}", file.AsSpan(id));
        foreach (var place in new[] { "<xmpMM:DocumentID>uuid:", "<xmpMM:InstanceID>uuid:" })
        {
            var start = file.AsSpan().IndexOf(Encoding.ASCII.GetBytes(place)) + place.Length;
            Encoding.ASCII.GetBytes(name.ToString(), file.AsSpan(start));
        }
    }
}
