using System.Net.Http.Headers;
using System.Text;

namespace ReedShop.Tests;

/// <summary>A file sent by a form of a page.</summary>
public static class Upload
{
    public static async Task<HttpResponseMessage> Steps(
        Visitor owner,
        string csv,
        string page = "/bench/history",
        string path = "/bench/history/steps",
        string field = "file"
    )
    {
        using var file = new ByteArrayContent(Encoding.UTF8.GetBytes(csv));
        file.Headers.ContentType = new MediaTypeHeaderValue("text/csv");
        using var token = new StringContent(await owner.FormToken(page));
        using var form = new MultipartFormDataContent
        {
            { file, field, "steps.csv" },
            { token, "__RequestVerificationToken" },
        };
        return await owner.Browser.PostAsync(path, form, TestContext.Current.CancellationToken);
    }
}
